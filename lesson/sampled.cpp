#include "lesson/sampled.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <optional>

#include "judge/rollout.hpp"
#include "judge/shipped.hpp"
#include "lesson/remembered.hpp"

namespace pointwright::lesson {
namespace {

constexpr int rolls = 12;
constexpr std::uint64_t least_trials = 144;
constexpr std::uint64_t most_trials = 720;

bool is_clear(const judge::Tally& tally, double threshold) {
  for (std::size_t i = 1; i < tally.starts.size(); ++i) {
    const double error = sampled_errors * tally.lead_error(0, i) + sampled_bias;
    if (std::abs(tally.lead(0, i) - threshold) < error) return false;
  }
  return true;
}

judge::Tally roll_out(const Ask& ask, const judge::Valuation& valuation,
                      const std::vector<Board>& boards, double threshold) {
  std::vector<judge::RolloutStart> starts;
  for (const Board& board : boards) starts.push_back({board, opponent(ask.side())});
  const judge::RolloutSettings settings{
      .truncate_after = rolls, .end_depth = 1, .valuation = valuation};
  const BuildHost alone;
  const BuildHost& workers = ask.help().workers != nullptr ? *ask.help().workers : alone;
  judge::Tally tally(starts.size());
  for (std::uint64_t block = 0; tally.trials < most_trials; ++block) {
    // Tallies add up exactly, whatever the pieces.
    std::array<std::optional<judge::Tally>, judge::trials_per_block> pieces;
    workers.split(pieces.size(), [&](std::size_t begin, std::size_t end) {
      judge::Rollout rollout(judge::shipped_evaluator(), settings, starts, ask.side());
      judge::Tally& piece = pieces[begin].emplace(starts.size());
      for (std::size_t i = begin; i < end; ++i)
        rollout.add_trial(block * judge::trials_per_block + i, piece);
    });
    for (const auto& piece : pieces) {
      if (piece) tally.merge(*piece);
    }
    if (tally.trials >= least_trials && is_clear(tally, threshold)) break;
  }
  return tally;
}

}  // namespace

SampledPlays sampled_plays(const Ask& ask, const judge::Valuation& valuation, const Board& claimed,
                           const std::vector<Board>& others, double threshold) {
  std::vector<Board> boards{claimed};
  boards.insert(boards.end(), others.begin(), others.end());
  std::string what = fmt::format("rolled out {} {} {} {} to {}", rolls, least_trials, most_trials,
                                 sampled_errors, threshold);
  for (const Board& board : boards) what += " / " + to_text(board);
  // Trials, the claimed equity, then three numbers for each rival.
  const std::vector<double> found =
      remembered(ask, memo_key(what, ask, valuation), 2 + 3 * others.size(), [&] {
        const judge::Tally tally = roll_out(ask, valuation, boards, threshold);
        std::vector<double> numbers{static_cast<double>(tally.trials), tally.equity(0)};
        for (std::size_t i = 1; i < boards.size(); ++i)
          numbers.insert(numbers.end(),
                         {tally.equity(i), tally.lead(0, i), tally.lead_error(0, i)});
        return numbers;
      });
  SampledPlays plays{
      .trials = static_cast<std::uint64_t>(found[0]), .equity = found[1], .rivals = {}};
  for (std::size_t i = 0; i < others.size(); ++i)
    plays.rivals.push_back({found[2 + 3 * i], found[3 + 3 * i], found[4 + 3 * i]});
  return plays;
}

}  // namespace pointwright::lesson

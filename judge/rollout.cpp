#include "judge/rollout.hpp"

#include <utility>

namespace pointwright::judge {
namespace {

/// A well-mixed number from any other. Source: the output function of SplitMix64; G. Steele, D. Lea
/// and C. Flood, "Fast Splittable Pseudorandom Number Generators", OOPSLA 2014.
std::uint64_t mixed(std::uint64_t x) {
  x += 0x9E3779B97F4A7C15ULL;
  x = (x ^ (x >> 30U)) * 0xBF58476D1CE4E5B9ULL;
  x = (x ^ (x >> 27U)) * 0x94D049BB133111EBULL;
  return x ^ (x >> 31U);
}

constexpr std::uint64_t throws = 36;

double equity_of(const std::array<double, 5>& chances, const Valuation& valuation) {
  return static_cast<double>(valuation.base) + static_cast<double>(valuation.win) * chances[0] +
         static_cast<double>(valuation.win_gammon) * chances[1] +
         static_cast<double>(valuation.win_backgammon) * chances[2] +
         static_cast<double>(valuation.lose_gammon) * chances[3] +
         static_cast<double>(valuation.lose_backgammon) * chances[4];
}

/// Without a deeper search nothing is remembered, and a rollout is cheap to set up.
SearchOptions search_options(const RolloutSettings& settings) {
  SearchOptions options;
  options.cache_bits = settings.play_depth > 0 || settings.end_depth > 0 ? 14 : 0;
  return options;
}

}  // namespace

int throw_of(const RolloutSettings& settings, std::uint64_t trial, int ply) {
  const std::uint64_t within = trial % throws;
  const std::uint64_t block = trial / throws;
  // Every block holds each first throw and each second throw once; 36 blocks hold every pair.
  if (settings.stratify && ply == 0) return static_cast<int>(within);
  if (settings.stratify && ply == 1) return static_cast<int>((within + block) % throws);
  const std::uint64_t drawn =
      mixed(mixed(mixed(settings.seed) ^ trial) ^ static_cast<std::uint64_t>(ply));
  return static_cast<int>(drawn % throws);
}

Rollout::Rollout(const Evaluator& evaluator, const RolloutSettings& settings,
                 std::vector<RolloutStart> starts, Side viewer)
    : settings_(settings),
      starts_(std::move(starts)),
      viewer_(viewer),
      search_(evaluator, search_options(settings)),
      outcomes_(starts_.size()) {}

std::size_t Rollout::roll_index(std::uint64_t trial, int ply) const {
  // all_rolls() goes 1-1, 2-1, 2-2, 3-1 ...
  const int a_throw = throw_of(settings_, trial, ply);
  const Roll roll(1 + a_throw / 6, 1 + a_throw % 6);
  return static_cast<std::size_t>(roll.high() * (roll.high() - 1) / 2 + roll.low() - 1);
}

Chances Rollout::reached(const Board& board, Side side, const Evaluation& end) {
  if (settings_.end_depth == 0 || is_final(end.origin)) return end.chances;
  const Search::Stakes stakes(settings_.valuation);
  return search_.worth(board, side, settings_.end_depth, stakes.of(side == viewer_)).chances;
}

Tally::Outcome Rollout::play(const RolloutStart& start, std::uint64_t trial) {
  Board board = start.board;
  Side side = start.on_roll;
  std::array<double, 5> luck{};  // seen by the viewer
  const Search::Stakes stakes(settings_.valuation);

  Evaluation end = search_.evaluator().evaluate(board, side);
  for (int ply = 0; ply < last_ply() && !is_final(end.origin); ++ply) {
    const std::size_t rolled = roll_index(trial, ply);
    const Valuation& valuation = stakes.of(side == viewer_);
    Board next;
    if (settings_.adjust_luck) {
      search_.look(board, side, valuation, look_);
      const auto got =
          in_doubles(side == viewer_ ? look_.chances[rolled] : look_.chances[rolled].reversed());
      const auto expected = in_doubles(side == viewer_ ? look_.mean : look_.mean.reversed());
      for (std::size_t k = 0; k < luck.size(); ++k) luck[k] += got[k] - expected[k];
      next = look_.after[rolled];
    }
    if (!settings_.adjust_luck || settings_.play_depth > 0)
      next = search_.best_after(board, side, all_rolls()[rolled], settings_.play_depth, valuation);
    board = next;
    side = opponent(side);
    end = search_.evaluator().evaluate(board, side);
  }
  const Chances last = reached(board, side, end);

  Tally::Outcome outcome;
  outcome.chances = in_doubles(side == viewer_ ? last : last.reversed());
  for (std::size_t k = 0; k < luck.size(); ++k) outcome.chances[k] -= luck[k];
  outcome.equity = equity_of(outcome.chances, settings_.valuation);
  return outcome;
}

void Rollout::add_trial(std::uint64_t trial, Tally& tally) {
  for (std::size_t i = 0; i < starts_.size(); ++i) {
    const RolloutStart& start = starts_[i];
    outcomes_[i] = start.cube ? play_with_cube(start, trial) : play(start, trial);
  }
  tally.add(outcomes_);
}

void Rollout::add_block(std::uint64_t block, Tally& tally) {
  for (std::uint64_t i = 0; i < trials_per_block; ++i)
    add_trial(block * trials_per_block + i, tally);
}

bool is_settled(const Tally& tally, const StopRule& rule) {
  if (tally.trials < rule.least_trials) return false;
  if (tally.starts.size() == 1) return rule.error > 0 && tally.error(0) < rule.error;
  const std::size_t best = tally.best();
  for (std::size_t i = 0; i < tally.starts.size(); ++i) {
    if (i == best) continue;
    const double error = tally.lead_error(best, i);
    const bool clear =
        rule.lead_in_errors > 0 && tally.lead(best, i) >= rule.lead_in_errors * error;
    const bool close = rule.error > 0 && error < rule.error;
    if (!clear && !close) return false;
  }
  return true;
}

}  // namespace pointwright::judge

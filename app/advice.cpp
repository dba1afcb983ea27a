#include "app/advice.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "app/judging.hpp"
#include "app/numbers.hpp"
#include "judge/shipped.hpp"
#include "rollouts/rollout_job.hpp"

namespace pointwright::app {
namespace {

/// Plays this far behind the best, as searched, are not rolled out: no error of the search is so
/// large.
constexpr float rollout_within = 0.12F;
constexpr std::size_t least_rolled_out = 2;
constexpr std::size_t most_rolled_out = 4;

/// Looks at one play as deeply as at the best and puts it where it belongs.
void deepen(Advice& advice, judge::Search& search, const Board& wanted) {
  const std::size_t at = index_of(advice, wanted);
  judge::RankedPlay play = advice.plays[at].ranked;
  if (play.depth >= advice.depth || judge::is_final(play.origin)) return;
  const Side other = opponent(*advice.position.turn);
  const judge::SearchedValue theirs =
      search.worth(wanted, other, advice.depth, advice.valuation.reversed());
  play.chances = theirs.chances.reversed();
  play.equity = -theirs.equity;
  play.depth = theirs.depth;
  play.origin = theirs.origin;
  advice.plays.erase(advice.plays.begin() + static_cast<std::ptrdiff_t>(at));
  const auto place = std::ranges::find_if(advice.plays, [&](const AdvisedPlay& other_play) {
    const judge::RankedPlay& ranked = other_play.ranked;
    return (ranked.depth < play.depth && !judge::is_final(ranked.origin)) ||
           ranked.equity < play.equity;
  });
  advice.plays.insert(place, {.ranked = play});
}

bool is_rolled_out(const Advice& advice, std::size_t i, const std::optional<Board>& wanted) {
  const judge::RankedPlay& play = advice.plays[i].ranked;
  if (wanted && play.play.after == *wanted) return true;
  if (i < least_rolled_out) return true;
  return i < most_rolled_out && play.equity >= advice.plays[0].ranked.equity - rollout_within;
}

/// Rolls the best plays out with the same dice and sorts them by what came of it.
void roll_out(Advice& advice, const AdviceEffort& effort, const std::optional<Board>& wanted) {
  const Side side = *advice.position.turn;
  std::vector<AdvisedPlay> chosen;
  std::vector<AdvisedPlay> others;
  for (std::size_t i = 0; i < advice.plays.size(); ++i) {
    const bool over = has_won(advice.plays[i].ranked.play.after, side);
    (!over && is_rolled_out(advice, i, wanted) ? chosen : others).push_back(advice.plays[i]);
  }
  if (chosen.empty()) return;
  RolloutJob job{.settings = {.valuation = advice.valuation},
                 .starts = {},
                 .viewer = side,
                 .trials = effort.most_trials};
  for (const AdvisedPlay& play : chosen) {
    job.starts.push_back({.board = play.ranked.play.after, .on_roll = opponent(side)});
  }
  RolloutRun how{.threads = effort.threads};
  if (chosen.size() > 1) how.stop.lead_in_errors = 4;
  RolloutProgress progress(job);
  run(job, 0, judge::shipped_evaluator(), how, progress);
  const judge::Tally& tally = progress.tally;
  advice.trials = tally.trials;
  const std::size_t best = tally.best();
  for (std::size_t i = 0; i < chosen.size(); ++i) {
    chosen[i].ranked.equity = static_cast<float>(tally.equity(i));
    chosen[i].ranked.chances = tally.chances(i);
    chosen[i].error = tally.error(i);
    chosen[i].cost = tally.lead(best, i);
    chosen[i].cost_error = i == best ? 0 : tally.lead_error(best, i);
  }
  std::ranges::stable_sort(chosen, {}, &AdvisedPlay::cost);
  // A play that was not rolled out costs what the search says, beside the same best play.
  advice.plays = std::move(chosen);
  advice.plays.insert(advice.plays.end(), others.begin(), others.end());
}

}  // namespace

Advice advise(const Position& position, const judge::Valuation& valuation, AdviceEffort effort,
              const std::optional<Board>& wanted) {
  return advise(*make_search(effort.depth, effort.threads), position, valuation, effort, wanted);
}

Advice advise(judge::Search& search, const Position& position, const judge::Valuation& valuation,
              AdviceEffort effort, const std::optional<Board>& wanted) {
  Advice advice{.position = position, .valuation = valuation, .depth = effort.depth};
  if (legal_plays(position.board, *position.turn, *position.roll).empty()) return advice;
  for (const judge::RankedPlay& ranked :
       search.rank(position.board, *position.turn, *position.roll, effort.depth, valuation)) {
    advice.plays.push_back({.ranked = ranked});
  }
  if (wanted) deepen(advice, search, *wanted);
  for (AdvisedPlay& play : advice.plays) {
    play.cost = static_cast<double>(advice.plays.front().ranked.equity - play.ranked.equity);
  }
  if (effort.most_trials > 0) roll_out(advice, effort, wanted);
  return advice;
}

std::size_t index_of(const Advice& advice, const Board& after) {
  const auto found = std::ranges::find_if(
      advice.plays, [&](const AdvisedPlay& play) { return play.ranked.play.after == after; });
  return static_cast<std::size_t>(found - advice.plays.begin());
}

Why why(const Advice& advice, std::size_t first, std::size_t second, const SideNames& names) {
  const Side side = *advice.position.turn;
  const auto considered = [&](std::size_t i) {
    return judge::consider(judge::shipped_evaluator(), advice.position.board, side,
                           advice.plays[i].ranked.play, advice.valuation);
  };
  Why result{.first = considered(first), .second = considered(second)};
  result.reasons = judge::reasons(result.first, result.second, side, advice.valuation, names);
  return result;
}

std::string_view known_word(const AdvisedPlay& play) {
  return play.error ? known_sampled : known_word(play.ranked.origin);
}

std::string known_words(const AdvisedPlay& play) {
  const std::string_view word = known_word(play);
  if (word == known_sampled) return fmt::format("+- {:.3f}", *play.error);
  if (word != known_searched) return std::string{word};
  if (play.ranked.depth == 0) return "at once";
  return fmt::format("{} {} ahead", play.ranked.depth, play.ranked.depth == 1 ? "roll" : "rolls");
}

}  // namespace pointwright::app

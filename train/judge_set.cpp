#include "train/judge_set.hpp"

#include <algorithm>
#include <array>
#include <numeric>
#include <optional>
#include <random>

#include "rules/notation.hpp"
#include "train/self_play.hpp"

namespace pointwright::train {
namespace {

/// From one game come at most so many decisions, and of one kind so many: neighbours are alike.
constexpr int most_from_game = 6;
constexpr int most_of_kind_from_game = 2;
/// One in so many positions of a game is looked at.
constexpr std::uint64_t looked_at_one_in = 3;

/// The decision as light's, whichever side had it.
void as_light(Board& board, Side side) {
  if (side == Side::dark) board = swapped(board);
}

bool seen_before(const std::vector<Judged>& decisions, const Board& board, Roll roll) {
  return std::any_of(decisions.begin(), decisions.end(), [&](const Judged& other) {
    return other.roll == roll && other.board == board;
  });
}

/// The plays worth listing, or nothing if the decision is forced.
std::vector<JudgedPlay> listed_plays(judge::Search& search, const Board& board, Roll roll,
                                     const JudgeSetOptions& options) {
  const auto ranked = search.rank(board, Side::light, roll, 1);
  std::vector<JudgedPlay> plays;
  if (ranked.size() < 2) return plays;
  const auto equity = [](const judge::RankedPlay& play) {
    return static_cast<double>(play.equity);
  };
  const double best = equity(ranked[0]);
  if (ranked[1].depth < ranked[0].depth || best - equity(ranked[1]) >= options.unforced_within)
    return plays;
  for (const judge::RankedPlay& play : ranked) {
    // A play that the sieve held back is known at once only; it is never a candidate.
    const bool sieved = play.depth == 0 && !is_final(play.origin);
    if (sieved || best - equity(play) > options.listed_within) continue;
    JudgedPlay listed;
    listed.text = to_text(play.play.play);
    listed.after = play.play.after;
    listed.one_step = equity(play);
    plays.push_back(std::move(listed));
  }
  return plays;
}

}  // namespace

std::vector<Judged> choose_decisions(
    const judge::Evaluator& evaluator, const JudgeSetOptions& options,
    const std::function<void(std::size_t found, std::uint64_t games)>& heard) {
  judge::SearchOptions wide;
  wide.first = {12, static_cast<float>(options.listed_within)};
  judge::Search search(evaluator, wide);
  SelfPlay how;
  how.strange_starts = options.strange_starts;
  std::array<std::vector<Judged>, all_kinds.size()> found;
  std::size_t total = 0;
  Game game;
  for (std::uint64_t number = 0;
       number < options.most_games && total < options.per_kind * all_kinds.size(); ++number) {
    std::mt19937_64 random(options.seed * 0x9E3779B97F4A7C15ULL + number);
    play_game(evaluator, how, random, game);
    std::array<int, all_kinds.size()> from_game{};
    int all_from_game = 0;
    for (const Visit& visit : game.visits) {
      const Roll roll(1 + static_cast<int>(random() % 6), 1 + static_cast<int>(random() % 6));
      if (random() % looked_at_one_in != 0 || all_from_game == most_from_game) continue;
      const auto kind = static_cast<std::size_t>(kind_of(visit.board));
      if (found[kind].size() >= options.per_kind || from_game[kind] == most_of_kind_from_game)
        continue;
      Judged decision;
      decision.board = visit.board;
      as_light(decision.board, visit.on_roll);
      decision.roll = roll;
      decision.kind = all_kinds[kind];
      if (seen_before(found[kind], decision.board, roll)) continue;
      decision.plays = listed_plays(search, decision.board, roll, options);
      if (decision.plays.empty()) continue;
      decision.part = found[kind].size() % 2 == 0 ? Part::tuning : Part::reporting;
      found[kind].push_back(std::move(decision));
      ++from_game[kind];
      ++all_from_game;
      ++total;
    }
    if (heard) heard(total, number + 1);
  }
  std::vector<Judged> decisions;
  for (auto& of_kind : found) {
    for (Judged& decision : of_kind) {
      decision.id = decisions.size() + 1;
      decisions.push_back(std::move(decision));
    }
  }
  return decisions;
}

void judge_decision(const judge::Evaluator& evaluator, const JudgeSetOptions& options,
                    Judged& decision) {
  // Listed best first at one step, so the serious ones are in front.
  std::size_t serious = 0;
  while (serious < std::min(decision.plays.size(), options.most_candidates) &&
         decision.plays[0].one_step - decision.plays[serious].one_step <= options.serious_within)
    ++serious;
  serious = std::max<std::size_t>(serious, std::min<std::size_t>(2, decision.plays.size()));
  std::vector<judge::RolloutStart> starts;
  for (std::size_t i = 0; i < serious; ++i) starts.push_back({decision.plays[i].after, Side::dark});

  judge::RolloutSettings settings = options.rollout;
  settings.seed = options.rollout.seed * 1'000'003 + decision.id;
  std::vector<std::size_t> left(serious);  // which plays are still rolled out
  std::iota(left.begin(), left.end(), std::size_t{0});
  judge::Tally even(serious);
  judge::Tally odd(serious);
  judge::Tally both(serious);
  std::optional<judge::Rollout> rollout;
  rollout.emplace(evaluator, settings, starts, Side::light);
  const auto note = [&](std::size_t i) {
    JudgedPlay& play = decision.plays[left[i]];
    const std::size_t best = both.best();
    play.trials = both.trials;
    play.equity = both.equity(i);
    play.error = both.error(i);
    play.behind = both.lead(best, i);
    play.behind_error = both.lead_error(best, i);
    play.even = even.equity(i);
    play.odd = odd.equity(i);
    play.chances = both.chances(i);
    play.win_error = both.starts[i].chances[0].error(both.trials);
    play.gammon_error = both.starts[i].chances[1].error(both.trials);
  };
  for (std::uint64_t block = 0; both.trials < options.most_trials; block += 2) {
    rollout->add_block(block, even);
    rollout->add_block(block + 1, odd);
    both = even;
    both.merge(odd);
    if (both.trials < options.least_trials) continue;
    const std::size_t best = both.best();
    std::vector<std::size_t> kept;
    double largest_error = 0;
    for (std::size_t i = 0; i < left.size(); ++i) {
      const double error = both.lead_error(best, i);
      if (i != best && both.lead(best, i) > options.clear_lead * error) {
        note(i);
        continue;
      }
      kept.push_back(i);
      largest_error = std::max(largest_error, error);
    }
    if (kept.size() < left.size()) {
      even = even.only(kept);
      odd = odd.only(kept);
      both = both.only(kept);
      std::vector<std::size_t> still;
      std::vector<judge::RolloutStart> still_starts;
      for (const std::size_t i : kept) {
        still.push_back(left[i]);
        still_starts.push_back(starts[left[i]]);
      }
      left = std::move(still);
      rollout.emplace(evaluator, settings, std::move(still_starts), Side::light);
    }
    if (left.size() == 1 || largest_error < options.enough_error) break;
  }
  for (std::size_t i = 0; i < left.size(); ++i) note(i);
  std::stable_sort(decision.plays.begin(),
                   decision.plays.begin() + static_cast<std::ptrdiff_t>(serious),
                   [](const JudgedPlay& a, const JudgedPlay& b) {
                     return a.trials != b.trials ? a.trials > b.trials : a.equity > b.equity;
                   });
}

Loss loss_of(const Judged& decision, const Board& chosen) {
  const JudgedPlay& best = decision.plays.front();
  const auto play = std::find_if(decision.plays.begin(), decision.plays.end(),
                                 [&](const JudgedPlay& p) { return p.after == chosen; });
  // A play that is not even listed stood farther behind than every listed one.
  if (play == decision.plays.end()) {
    return {std::max(0.0, best.one_step - decision.plays.back().one_step), false, true};
  }
  if (play->trials == 0) return {std::max(0.0, best.one_step - play->one_step), false, true};
  if (play->trials < best.trials) return {play->behind, false, false};
  const auto best_by = [&](double JudgedPlay::* half) {
    const JudgedPlay* best_play = &best;
    for (const JudgedPlay& p : decision.plays) {
      if (p.trials == best.trials && p.*half > best_play->*half) best_play = &p;
    }
    return best_play;
  };
  const double by_odd = best_by(&JudgedPlay::even)->odd - play->odd;
  const double by_even = best_by(&JudgedPlay::odd)->even - play->even;
  return {(by_odd + by_even) / 2, play->behind < 2 * play->behind_error || &*play == &best, false};
}

}  // namespace pointwright::train

#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "judge/rollout.hpp"
#include "rules/play.hpp"
#include "rules/result.hpp"
#include "train/kinds.hpp"

namespace pointwright::train {

/// One play of a judged decision, seen by the side that plays (always light).
struct JudgedPlay {
  std::string text;  ///< in the trade's notation
  Board after;
  double one_step = 0;       ///< equity one step deep, by the nets that made the set
  std::uint64_t trials = 0;  ///< 0: not rolled out, for one step found it far behind
  double equity = 0;         ///< by rollout; the following too
  double error = 0;          ///< standard error of `equity`
  double behind = 0;         ///< the best play's equity less this one's, with the same dice
  double behind_error = 0;   ///< standard error of `behind`
  double even = 0;           ///< equity over every other block of trials, and over the rest:
  double odd = 0;            ///< two judgements that know nothing of each other
  judge::Chances chances;
  double win_error = 0;
  double gammon_error = 0;  ///< of win_gammon
};

/// Whether a decision is for tuning or only for reporting.
enum class Part : std::uint8_t { tuning, reporting };

/// A decision whose serious candidates were rolled out. The plays are in the order of their
/// rollouts, best first; then those that were dropped after fewer trials because they were clearly
/// behind; last those that were not rolled out.
struct Judged {
  std::uint64_t id = 0;
  Kind kind = Kind::opening;
  Part part = Part::tuning;
  Board board;
  Roll roll{2, 1};
  std::vector<JudgedPlay> plays;
};

/// How decisions are chosen and judged.
struct JudgeSetOptions {
  std::uint64_t seed = 1;
  std::size_t per_kind = 640;
  std::uint64_t most_games = 2'000'000;
  double strange_starts = 0.3;   ///< share of games that begin with random plays
  double unforced_within = 0.2;  ///< the second play is at most so far behind at one step
  double serious_within = 0.15;  ///< plays so near the best at one step are rolled out
  std::size_t most_candidates = 5;
  double listed_within = 0.3;  ///< plays so near are listed with their equity at one step
  judge::RolloutSettings rollout;
  std::uint64_t least_trials = 72;
  std::uint64_t most_trials = 288;
  double clear_lead = 4;        ///< a play so many standard errors behind is dropped
  double enough_error = 0.003;  ///< or no more trials when all leads are known so well
};

/// Chooses decisions of each kind from games of the evaluator against itself. The same for the same
/// seed. Fewer than wanted if `most_games` do not hold so many.
std::vector<Judged> choose_decisions(const judge::Evaluator& evaluator,
                                     const JudgeSetOptions& options,
                                     const std::function<void(std::size_t, std::uint64_t)>& heard);

/// Rolls the serious candidates out and puts the plays in order.
void judge_decision(const judge::Evaluator& evaluator, const JudgeSetOptions& options,
                    Judged& decision);

/// The set as CSV, one line for each play, with `comments` before it, each behind "# ".
std::string to_csv(const std::vector<Judged>& decisions, const std::vector<std::string>& comments);

/// Reads what to_csv wrote, or says which line is wrong and why.
Result<std::vector<Judged>, std::string> read_csv(const std::string& csv);

/// What is lost by a choice of the decision's plays. For plays with all the trials it is taken
/// twice: half of the trials say which play is best and the other half how far the choice is behind
/// it. So chance cannot make the best play look better than it is, and over many decisions the mean
/// is not too high; single losses may come out below nought.
struct Loss {
  double equity = 0;     ///< for a play not rolled out, by its one step
  bool tie = false;      ///< within two standard errors of the best
  bool outside = false;  ///< the play was not rolled out
};
Loss loss_of(const Judged& decision, const Board& chosen);

}  // namespace pointwright::train

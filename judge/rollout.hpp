#pragma once

#include <cstdint>
#include <vector>

#include "judge/search.hpp"
#include "judge/tally.hpp"

namespace pointwright::judge {

/// How the trials of a rollout are played.
struct RolloutSettings {
  std::uint64_t seed = 1;
  /// A trial stops after so many rolls and takes the value of the position that it has reached; 0
  /// plays to the end. It always stops where the rules or a table know the value.
  int truncate_after = 0;
  int play_depth = 0;  ///< how deeply each play is searched
  int end_depth = 0;   ///< how deeply the position is searched in which a trial is cut off
  /// Whether the luck of every roll is taken out: the value that the roll brought at once, less the
  /// mean of the 21 rolls. It is nothing on average, so the result does not change, only its error.
  bool adjust_luck = true;
  /// Whether the first two rolls go through all 36 throws in turn instead of being drawn.
  bool stratify = true;
  Valuation valuation = Valuation::money();  ///< as the viewer sees it

  friend bool operator==(const RolloutSettings&, const RolloutSettings&) = default;
};

/// A position to roll out: `on_roll` is about to roll.
struct RolloutStart {
  Board board;
  Side on_roll = Side::light;
};

/// Most rolls in a trial that is played to the end; beyond them the position is valued as it
/// stands.
inline constexpr int longest_trial = 1000;

/// Trials come in groups of this size; stratified ones see every first throw once in each.
inline constexpr std::uint64_t trials_per_block = 36;

/// The throw, 0 to 35, at roll `ply` of a trial: it depends on nothing else, so that all starts of
/// a rollout see the same dice, in any order and on any number of threads.
int throw_of(const RolloutSettings& settings, std::uint64_t trial, int ply);

/// Plays trials. Like Search, one for each thread.
class Rollout {
 public:
  /// All results are seen by `viewer`. Precondition: at least one start, none of them over.
  Rollout(const Evaluator& evaluator, const RolloutSettings& settings,
          std::vector<RolloutStart> starts, Side viewer);

  /// Plays the trials of that number from all starts and adds them to the tally.
  void add_trial(std::uint64_t trial, Tally& tally);
  /// The same for the trials of a block.
  void add_block(std::uint64_t block, Tally& tally);

  [[nodiscard]] const RolloutSettings& settings() const { return settings_; }
  [[nodiscard]] const std::vector<RolloutStart>& starts() const { return starts_; }

 private:
  Tally::Outcome play(const RolloutStart& start, std::uint64_t trial);

  RolloutSettings settings_;
  std::vector<RolloutStart> starts_;
  Side viewer_;
  Search search_;
  Search::Look look_;
  std::vector<Tally::Outcome> outcomes_;
};

/// When a rollout of several plays has said enough.
struct StopRule {
  std::uint64_t least_trials = 144;
  double lead_in_errors = 0;  ///< the best leads each other by so many standard errors; 0: never
  double error = 0;           ///< or all standard errors of the leads are below; 0: never
};

/// Whether the rule lets a rollout stop. With one start, `error` is that of its equity.
bool is_settled(const Tally& tally, const StopRule& rule);

}  // namespace pointwright::judge

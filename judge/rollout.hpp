#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "judge/cube_model.hpp"
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

/// The cube of trials that use it.
struct RolloutCube {
  CubeSituation situation;  ///< as the side on roll sees it
  bool may_offer = true;    ///< whether it may offer the cube before its first roll
  std::uint64_t unit = 1;   ///< equities count in cubes of this value: see cube_equity_in()
};

/// A position to roll out: `on_roll` is about to roll. Without a cube its trials are played on
/// without one, and equities are those of the settings' valuation. With a cube both sides offer,
/// take and drop as the model of judge/cube_model.hpp tells them one step deep; the valuation then
/// only chooses plays. Such a trial ends with a drop, or where a table knows the race with the
/// cube, else with the game; cut off, it takes the model's worth.
struct RolloutStart {
  Board board;
  Side on_roll = Side::light;
  std::optional<RolloutCube> cube{};
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
  Tally::Outcome play_with_cube(const RolloutStart& start, std::uint64_t trial);
  /// The place among all_rolls() of the throw at a roll of a trial.
  [[nodiscard]] std::size_t roll_index(std::uint64_t trial, int ply) const;
  [[nodiscard]] int last_ply() const {
    return settings_.truncate_after > 0 ? settings_.truncate_after : longest_trial;
  }
  /// The chances of a position in which a trial is cut off.
  [[nodiscard]] Chances reached(const Board& board, Side side, const Evaluation& end);

  RolloutSettings settings_;
  std::vector<RolloutStart> starts_;
  Side viewer_;
  Search search_;
  Search::Look look_;
  std::vector<Tally::Outcome> outcomes_;
};

/// What `equity` at the situation's cube is worth in cubes of another value; in a match both stand
/// for the same chance of winning it, on the scale on which a single game at that cube is +1 or -1.
double cube_equity_in(double equity, const CubeSituation& situation, std::uint64_t unit);

/// When a rollout of several plays has said enough.
struct StopRule {
  std::uint64_t least_trials = 144;
  double lead_in_errors = 0;  ///< the best leads each other by so many standard errors; 0: never
  double error = 0;           ///< or all standard errors of the leads are below; 0: never
};

/// Whether the rule lets a rollout stop. With one start, `error` is that of its equity.
bool is_settled(const Tally& tally, const StopRule& rule);

}  // namespace pointwright::judge

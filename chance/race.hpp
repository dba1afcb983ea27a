#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "chance/bearoff.hpp"
#include "chance/two_sided.hpp"
#include "rules/board.hpp"
#include "rules/result.hpp"

namespace pointwright {

/// How a number about an ending is known.
struct Certainty {
  enum class Kind {
    exact,        ///< from a solved table; `error` is its rounding
    convolution,  ///< each side plays for its own mean; `error` was measured, see race.cpp
  };
  Kind kind = Kind::exact;
  double error = 0;         ///< the number lies within this of the truth
  std::string_view reason;  ///< one sentence for readers
};

/// What can be said about one side of a race, alone.
struct RaceSide {
  int pips = 0;
  double mean_rolls = 0;      ///< rolls to bear off, played for the least mean
  double variance = 0;        ///< of the number of rolls
  double effective_pips = 0;  ///< mean rolls times 49/6
  double wastage = 0;         ///< effective pips less pips
};

/// What can be said about a race.
struct RaceAnswer {
  RaceSide on_roll;
  RaceSide waiting;
  double win = 0;  ///< chance of the side on roll, without a cube
  Certainty win_known;
  /// With the cube, exact; nothing where no table of both sides covers the race.
  std::optional<CubeValues> cube;
};

/// Why there is no answer.
enum class NoRace {
  contact,   ///< the sides can still meet
  too_far,   ///< a side is outside every one-sided table
  finished,  ///< a side is off already
};
std::string_view explain(NoRace why);

/// The tables that answers come from. The default ones are built at first use; a large table of
/// both sides can be added from a file.
struct RaceTables {
  const TwoSidedTable<float>* large = nullptr;
};

/// One side alone. Nothing when its checkers are outside every one-sided table: some beyond the
/// 10-point, and more than six left.
std::optional<RaceSide> race_side(const Camp& camp);

/// A race seen by the side on roll.
Result<RaceAnswer, NoRace> race_answer(const Board& board, Side on_roll,
                                       const RaceTables& tables = {});

/// The chance that the first of two spreads comes to its end first, when it starts and they take
/// turns.
template <class First, class Second>
double first_is_sooner(const RollSpread<First>& first, const RollSpread<Second>& second) {
  // The first wins with its k-th roll when the second needs k rolls or more.
  double win = 0;
  double second_needs_more = 1;
  int counted = 0;
  for (int k = first.first; k <= first.last(); ++k) {
    for (; counted < k - 1; ++counted) second_needs_more -= second.exactly(counted + 1);
    win += first.exactly(k) * second_needs_more;
  }
  return win;
}

/// The points of outfield_table(), which takes fifteen checkers.
inline constexpr int outfield_points = 10;
/// The most checkers of runners_table(), which takes every point.
inline constexpr int runners_checkers = 6;

/// Up to six checkers anywhere on the points 1 to 24: 593,775 positions. Built at first use.
const OneSidedTable<float>& runners_table();

/// The largest error of a win chance by convolution, over all 923² races of up to six checkers a
/// side: 0.01395, measured by bench/chance_endings.cpp and rounded up here.
inline constexpr double convolution_error = 0.014;

}  // namespace pointwright

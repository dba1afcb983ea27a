#pragma once

#include <optional>
#include <string>
#include <vector>

#include "judge/position_valuation.hpp"
#include "lesson/claim.hpp"

/// What claims about the worth of plays and positions are proved from: numbers searched one and two
/// rolls ahead, and how far off they may be.
namespace pointwright::lesson {

/// A searched number is taken to lie within this of the truth; where one and two rolls ahead differ
/// by more, within that difference. A policy: docs/claims-from-search.md says what it rests on.
inline constexpr double chance_error = 0.025;
inline constexpr double equity_error = 0.06;
inline constexpr double lead_error = 0.03;  ///< of the difference between two plays of a roll

/// The life of a cube (judge/cube_model.hpp) is taken to lie between these.
inline constexpr double least_cube_life = 0.5;
inline constexpr double most_cube_life = 0.85;

/// A number as searched.
struct Searched {
  double value = 0;   ///< two rolls ahead
  double before = 0;  ///< one roll ahead
  bool exact = false;

  /// How far off the value may be. Exact numbers are off by nothing.
  [[nodiscard]] double error(double measured) const;
};

/// Whether a number lies between two limits.
enum class Settled { yes, no, open };
Settled settle(double value, double error, double low, double high);

/// A legal play with its worth to the side that plays.
struct SearchedPlay {
  LegalPlay play;
  Searched equity;
};

/// The plays of the ask's roll, the best two rolls ahead first: those that the search looks at
/// twice, and the one that leads to `wanted`. Precondition: the roll has a legal play.
std::vector<SearchedPlay> searched_plays(const Ask& ask, const judge::Valuation& valuation,
                                         const Board& wanted);

/// Chances and worth of the side on roll, before it rolls.
struct SearchedPosition {
  Searched win;
  Searched gammon;  ///< won, backgammons included
  Searched lost_gammon;
  Searched equity;
};
SearchedPosition searched_position(const Ask& ask, const judge::Valuation& valuation);

/// The valuation of the ask's position for its side on roll, or why there is none.
std::variant<judge::Valuation, Unanswerable> valuation_for(const Ask& ask);

/// How a claim that rests on such numbers is known.
HowKnown how_known(bool exact);

}  // namespace pointwright::lesson

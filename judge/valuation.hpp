#pragma once

#include <cstdint>

#include "chance/match_cube.hpp"
#include "judge/chances.hpp"

namespace pointwright::judge {

/// What the ways in which a game may end are worth to one side: the equity of its chances is
/// `base` plus each weight times its chance. Equities are scaled so that a single win is worth +1
/// and a single loss -1, whatever is played for; what one side gains the other loses.
struct Valuation {
  float base = -1;
  float win = 2;
  float win_gammon = 1;
  float win_backgammon = 1;
  float lose_gammon = -1;
  float lose_backgammon = -1;

  /// A game for points without a cube: the same as Chances::equity().
  static constexpr Valuation money() { return {}; }

  /// A game for points in which gammons do not count: with the Jacoby rule and the cube unturned,
  /// or without gammons in the house rules.
  static constexpr Valuation singles() { return {-1, 2, 0, 0, 0, 0}; }

  /// One game of a match at that score and cube, which nobody will turn again: chances of winning
  /// the match, with those after a single win and a single loss scaled to +1 and -1.
  /// Preconditions: both sides still need points, the table is large enough, and a single win is
  /// worth more than a single loss (it always is).
  static Valuation match(const chance::MatchTable& table, const chance::Needs& needs,
                         std::uint64_t cube);

  [[nodiscard]] float equity(const Chances& chances) const {
    return base + win * chances.win + win_gammon * chances.win_gammon +
           win_backgammon * chances.win_backgammon + lose_gammon * chances.lose_gammon +
           lose_backgammon * chances.lose_backgammon;
  }

  /// The same stakes as the other side sees them: `reversed().equity(chances.reversed())` is
  /// `-equity(chances)`.
  [[nodiscard]] constexpr Valuation reversed() const {
    return {-(base + win), win, -lose_gammon, -lose_backgammon, -win_gammon, -win_backgammon};
  }

  friend constexpr bool operator==(const Valuation&, const Valuation&) = default;
};

}  // namespace pointwright::judge

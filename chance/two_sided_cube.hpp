#pragma once

#include <algorithm>

namespace pointwright {

/// Who may turn the cube, seen by the side on roll.
enum class CubeAccess { none, centred, mine, theirs };

/// What a position is worth to the side on roll, before it decides about the cube and rolls.
/// Equities are for money, in units of the cube as it stands, gammons impossible, redoubles
/// without limit; the other side plays and handles the cube as well as can be.
struct CubeValues {
  double win = 0;           ///< chance to win if nobody can double
  double hold_centred = 0;  ///< equity when the cube is centred and not offered this turn
  double hold_mine = 0;     ///< equity when the cube is mine and not offered this turn
  double theirs = 0;        ///< equity when the other side has the cube

  /// Equity if nobody can double.
  [[nodiscard]] double cubeless() const { return 2 * win - 1; }
  /// Equity after offering and being taken: the stake is twice as high and the cube is theirs.
  [[nodiscard]] double offered_and_taken() const { return 2 * theirs; }
  /// Equity of offering: the other side takes, or drops and pays one, whichever costs it less.
  [[nodiscard]] double offered() const { return std::min(1.0, offered_and_taken()); }
  [[nodiscard]] double hold(CubeAccess access) const {
    switch (access) {
      case CubeAccess::centred:
        return hold_centred;
      case CubeAccess::mine:
        return hold_mine;
      case CubeAccess::theirs:
        return theirs;
      case CubeAccess::none:
        break;
    }
    return cubeless();
  }
  /// Equity with the better of holding and offering, where the side on roll may offer.
  [[nodiscard]] double equity(CubeAccess access) const {
    const bool may_offer = access == CubeAccess::centred || access == CubeAccess::mine;
    return may_offer ? std::max(hold(access), offered()) : hold(access);
  }
  /// Whether offering is at least as good as holding. Precondition: access is centred or mine.
  [[nodiscard]] bool should_offer(CubeAccess access) const {
    constexpr double rounding = 1e-9;  // of sums that should be equal, as where the game is won
    return offered() >= hold(access) - rounding;
  }
  /// Whether the other side loses no more by taking than by dropping.
  [[nodiscard]] bool should_take() const { return offered_and_taken() <= 1.0; }
};

}  // namespace pointwright

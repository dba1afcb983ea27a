#pragma once

#include <array>
#include <string>
#include <vector>

#include "rules/notation.hpp"
#include "rules/play.hpp"
#include "rules/position.hpp"
#include "rules/rulebook.hpp"

namespace pointwright {

/// What the two sides are called in sentences; a lesson may rename them.
struct SideNames {
  std::array<std::string, 2> of{"light", "dark"};
  [[nodiscard]] const std::string& operator[](Side side) const { return of[index(side)]; }
};

/// The referee's answer on a play.
struct Ruling {
  bool allowed = false;
  Play play;                   ///< when allowed: the play in canonical form
  Board after;                 ///< when allowed: the board that it leads to
  const Rule* rule = nullptr;  ///< when refused: the rule that decides
  std::string proof;           ///< one to three sentences that a learner can check on the board
  std::vector<Play>
      alternatives;  ///< when refused: legal plays, the nearest first; empty if none is
};

/// Rules on any attempted play, legal or not, by the side to play with the position's roll.
/// Precondition: `position` has a turn and a roll.
Ruling rule_on(const Position& position, const Attempt& attempt, const SideNames& names = {});

}  // namespace pointwright

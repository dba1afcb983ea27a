#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "rules/fault.hpp"
#include "rules/play.hpp"
#include "rules/result.hpp"

namespace pointwright {

/// One checker's journey as somebody wrote it: 24/18/13, or 13/7 in which the stops are not
/// written.
struct Journey {
  std::vector<Place> stops;  ///< at least two, the first is where it starts
  std::vector<bool> hits;    ///< one for each stop: whether a * stands after it
  TextSpan where;            ///< in the text; journeys that (2) multiplied share a span
};

/// A play as somebody wrote it, legal or not: journeys still to be matched with the dice.
struct Attempt {
  std::vector<Journey> journeys;
  std::string text;
};

/// Reads play notation liberally: any order, merged or split moves, with or without *, with (2).
/// Also "no play" for a turn without a legal move.
Result<Attempt, Faults> read_play(std::string_view text);

/// Prints a play canonically: farther checkers first, the moves of one checker merged, stops kept
/// only where a checker is hit, equal journeys counted: "24/18*/13", "8/5(2)". Empty: "no play".
std::string to_text(const Play& play);

}  // namespace pointwright

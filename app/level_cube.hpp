#pragma once

#include "judge/chances.hpp"
#include "rules/position.hpp"

/// What a level of opponent does about the cube, by the chances it sees at once.
namespace pointwright::app {

/// Whether a side should double. `chances` are those of the side to roll. For points, by the
/// interpolation between a dead and a live cube in chance/money_cube.hpp; in a match, by the points
/// at which a last double gains and a take loses, from the match table.
/// Precondition: the side may double.
bool should_double(const Position& position, const judge::Chances& chances);

/// Whether the other side should take, `chances` being those of the side that doubles. The cube of
/// the position is as it was before the offer.
bool should_take(const Position& position, const judge::Chances& chances);

}  // namespace pointwright::app

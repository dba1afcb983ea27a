#pragma once

#include <optional>

#include "judge/valuation.hpp"
#include "rules/position.hpp"

namespace pointwright::judge {

/// What the ends of a position's game are worth to `side`, without a further turn of the cube: for
/// points with the gammons that count under the house rules and the cube as it lies, or at the
/// score of the match by the standard match table. Nothing when the match is over, or longer than
/// that table.
std::optional<Valuation> valuation_of(const Position& position, Side side);

}  // namespace pointwright::judge

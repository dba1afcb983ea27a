#pragma once

#include <string>

#include "rules/position.hpp"

namespace pointwright::app {

/// The board in letters for a terminal, seen from one side: its points above and below the
/// checkers, L and D with their number, the bar, the trays and the cube beside it.
std::string text_board(const Position& position, Side viewer);

}  // namespace pointwright::app

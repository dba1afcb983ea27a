#pragma once

#include <functional>
#include <string>

#include "rules/board.hpp"
#include "tests/reference/positions.hpp"

namespace pointwright::reference {

/// Compares legal_plays of rules/ with the reference generator on one trial: the same set of
/// boards, none listed twice, each play leading to the board beside it and back. Returns what
/// differs, for people; empty when nothing does.
std::string difference(const Trial& trial);

/// Calls `visit` on every board on which `mover_checkers` of light and `other_checkers` of dark or
/// fewer, at least one each, stand on points and bar and the others are off, until it returns
/// false.
void for_each_tiny_board(int mover_checkers, int other_checkers,
                         const std::function<bool(const Board&)>& visit);

/// The same for every way to have 1 to 15 light checkers on its home points, dark's fifteen being
/// on its own 6-point: the 54,263 one-sided positions of bearing off that are not finished.
void for_each_home_board(const std::function<bool(const Board&)>& visit);

}  // namespace pointwright::reference

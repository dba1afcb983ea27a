#pragma once

#include <optional>
#include <vector>

#include "rules/notation.hpp"
#include "rules/play.hpp"

/// A turn that is made bit by bit: the moves made so far must be the beginning of a legal play.
namespace pointwright::lesson {

/// Reads `whole`, all that was written in this turn, so that its first moves are `made` and the
/// rest can still become a legal play. Returns every move in order, or nothing.
std::optional<std::vector<Move>> go_on(const Board& start, Side side, Roll roll,
                                       const Attempt& whole, const std::vector<Move>& made);

/// Whether a turn that began on `start` may end on `now`: it is the result of a legal play, or
/// nothing was moved and nothing can be.
bool may_end(const Board& start, Side side, Roll roll, const Board& now);

}  // namespace pointwright::lesson

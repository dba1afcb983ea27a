#pragma once

#include <vector>

#include "rules/play.hpp"
#include "rules/position.hpp"

namespace pointwright::lesson {

/// Plays that a learner may well try and that are not legal: single moves that the board refuses,
/// and moves that can each be made but use too little of the roll. At most `most`, in a fixed
/// order. Precondition: `position` has a turn and a roll.
std::vector<Play> near_misses(const Position& position, const std::vector<LegalPlay>& legal,
                              std::size_t most);

}  // namespace pointwright::lesson

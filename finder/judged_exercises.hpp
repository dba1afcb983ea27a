#pragma once

#include <optional>
#include <vector>

#include "finder/exercise.hpp"
#include "judge/search.hpp"

/// Exercises whose answers are judged: which play is best, and what to do about the cube.
namespace pointwright::finder {

/// A play that is offered as wrong costs at least so much, and no play is better than the right one
/// by more than half of it, in points a game: well beyond what a search of two rolls errs by.
inline constexpr float least_judged_cost = 0.08F;

/// Which of these plays is best? The right one is the best that a search two rolls ahead finds, the
/// wrong ones cost at least `least_judged_cost`; those that come to a beginner's mind stand first.
/// Nothing where fewer than two plays are that bad.
std::optional<Exercise> ask_best_play(const Finding& finding, Side side, const SideNames& names,
                                      judge::Search& search);

/// What should be done about the cube? Answered exactly, from the tables of both sides. Nothing
/// where they do not cover the position, an answer is nearly as good as another, or nobody would
/// think of doubling.
std::optional<Exercise> ask_cube(const Board& board, Side side, const SideNames& names);

/// Positions for `ask_cube`: both sides at home with three to six checkers, at random.
Board random_cube_race(Random& random);

}  // namespace pointwright::finder

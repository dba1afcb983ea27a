#pragma once

#include "rules/board.hpp"

namespace pointwright {

/// Where a die takes a checker from a place: `off_place` when it reaches or passes the edge.
constexpr Place landing(Place from, int die) {
  return from > die ? static_cast<Place>(from - die) : off_place;
}

/// Whether a side's point is held by two or more checkers of the other side.
inline bool is_blocked(const Board& board, Side side, Place point) {
  return board.of(opponent(side))[mirrored(point)] >= 2;
}

/// What the rules say of moving one checker by one die now, the other die aside.
enum class Step : std::uint8_t {
  fine,
  no_checker,    ///< the side has no checker there
  bar_first,     ///< another checker of the side waits on the bar
  blocked,       ///< two or more opposing checkers hold the point
  not_all_home,  ///< bearing off with a checker outside the home board
  higher_first,  ///< bearing off with a larger die while a checker stands on a higher point
};

/// Judges one step. This is the only place where the rules of a single step are written; the
/// generator of legal plays and the referee both ask it.
/// Precondition: 1 <= from <= bar_place and 1 <= die <= 6.
inline Step judge_step(const Board& board, Side side, Place from, int die) {
  const Camp& camp = board.of(side);
  if (camp[from] == 0) return Step::no_checker;
  if (from != bar_place && camp[bar_place] != 0) return Step::bar_first;
  const Place to = landing(from, die);
  if (to != off_place) return is_blocked(board, side, to) ? Step::blocked : Step::fine;
  const Place rear = rearmost(board, side);
  if (rear > last_home_point) return Step::not_all_home;
  if (from < die && rear > from) return Step::higher_first;
  return Step::fine;
}

}  // namespace pointwright

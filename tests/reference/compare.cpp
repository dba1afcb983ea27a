#include "tests/reference/compare.hpp"

#include <vector>

#include "rules/notation.hpp"
#include "rules/play.hpp"
#include "rules/position.hpp"
#include "tests/reference/reference.hpp"

namespace pointwright::reference {
namespace {

std::string describe(const Trial& trial) {
  return to_text(trial.board) + "; " + std::string(pointwright::name(trial.side)) + " to play " +
         to_text(trial.roll);
}

using Visit = std::function<bool(const Board&)>;

/// Puts up to `left` more checkers of a side on places from `place` down to 1, in every way, and
/// goes on with `then`; the others are off. Returns whether to go on.
bool place_in_every_way(Board& board, Side side, std::size_t place, int left,
                        const std::function<bool(Board&)>& then) {
  if (place == 0) {
    board.of(side).at(off_place) = 0;
    int placed = 0;
    for (const int n : board.of(side)) placed += n;
    if (placed == 0) return true;
    board.of(side).at(off_place) = static_cast<std::uint8_t>(checkers_per_side - placed);
    return then(board);
  }
  const bool taken = place != bar_place && board.of(opponent(side)).at(bar_place - place) > 0;
  for (int n = 0; n <= (taken ? 0 : left); ++n) {
    board.of(side).at(place) = static_cast<std::uint8_t>(n);
    if (!place_in_every_way(board, side, place - 1, left - n, then)) return false;
  }
  board.of(side).at(place) = 0;
  return true;
}

}  // namespace

std::string difference(const Trial& trial) {
  const Boards expected = results(trial.board, trial.side, trial.roll);
  const std::vector<LegalPlay> plays = legal_plays(trial.board, trial.side, trial.roll);

  Boards listed;
  for (const LegalPlay& legal : plays) {
    const std::string what = describe(trial) + ": " + to_text(legal.play);
    if (after(trial.board, trial.side, legal.play) != legal.after) {
      return what + " does not lead to the board listed beside it, " + to_text(legal.after);
    }
    if (before(legal.after, trial.side, legal.play) != trial.board) {
      return what + " is not taken back to the board before it";
    }
    if (!listed.insert(legal.after).second) {
      return what + " leads to a board that is listed twice, " + to_text(legal.after);
    }
    if (!expected.contains(legal.after)) {
      return what + " is listed, but the reference does not allow it";
    }
  }
  for (const Board& board : expected) {
    if (!listed.contains(board)) {
      return describe(trial) + ": not listed, but the reference allows " + to_text(board);
    }
  }
  return {};
}

void for_each_tiny_board(int mover_checkers, int other_checkers, const Visit& visit) {
  Board board;
  place_in_every_way(board, Side::light, bar_place, mover_checkers, [&](Board& with_light) {
    return place_in_every_way(with_light, Side::dark, bar_place, other_checkers,
                              [&](Board& complete) { return visit(complete); });
  });
}

void for_each_home_board(const Visit& visit) {
  Board board;
  board.of(Side::dark).at(last_home_point) = checkers_per_side;
  place_in_every_way(board, Side::light, last_home_point, checkers_per_side,
                     [&](Board& complete) { return visit(complete); });
}

}  // namespace pointwright::reference

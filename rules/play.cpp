#include "rules/play.hpp"

namespace pointwright {

bool make_move(Board& board, Side side, Place from, Place to) {
  Camp& camp = board.of(side);
  --camp[from];
  ++camp[to];
  if (to == off_place) return false;
  Camp& theirs = board.of(opponent(side));
  std::uint8_t& there = theirs[mirrored(to)];
  if (there != 1) return false;
  there = 0;
  ++theirs[bar_place];
  return true;
}

void take_back(Board& board, Side side, const Move& move) {
  Camp& camp = board.of(side);
  --camp[move.to];
  ++camp[move.from];
  if (!move.hit) return;
  Camp& theirs = board.of(opponent(side));
  --theirs[bar_place];
  theirs[mirrored(move.to)] = 1;
}

Board after(Board board, Side side, const Play& play) {
  for (const Move& move : play) make_move(board, side, move.from, move.to);
  return board;
}

Board before(Board board, Side side, const Play& play) {
  for (int i = play.size(); i-- > 0;) take_back(board, side, play[i]);
  return board;
}

}  // namespace pointwright

#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "rules/board.hpp"
#include "rules/roll.hpp"

namespace pointwright {

/// One checker moved by one die, in the mover's own numbering.
struct Move {
  Place from = 0;
  Place to = 0;  ///< off_place when the checker is borne off
  bool hit = false;
  friend bool operator==(const Move&, const Move&) = default;
};

/// All the moves of one turn, at most four, in an order in which they can be made.
class Play {
 public:
  [[nodiscard]] int size() const { return size_; }
  [[nodiscard]] bool empty() const { return size_ == 0; }
  [[nodiscard]] const Move* begin() const { return moves_.data(); }
  [[nodiscard]] const Move* end() const { return moves_.data() + size_; }
  [[nodiscard]] const Move& operator[](int i) const { return moves_[static_cast<std::size_t>(i)]; }
  /// Precondition: size() < 4.
  void push(Move move) { moves_[size_++] = move; }
  /// Precondition: !empty().
  void pop() { moves_[--size_] = Move{}; }
  friend bool operator==(const Play&, const Play&) = default;

 private:
  std::array<Move, 4> moves_{};
  std::uint8_t size_ = 0;
};

/// A play that the rules allow, with the board that it leads to.
struct LegalPlay {
  Play play;
  Board after;
};

/// Makes a move on the board, hitting if an opposing blot stands there. Returns whether it hit.
/// Precondition: the mover has a checker on `from` and `to` is not blocked.
bool make_move(Board& board, Side side, Place from, Place to);

/// Takes a move back. Precondition: `move` was the last one made on this board by `side`.
void take_back(Board& board, Side side, const Move& move);

/// The board after a play. Precondition: each move can be made in the order given.
Board after(Board board, Side side, const Play& play);

/// The board before a play: the inverse of `after`.
Board before(Board board, Side side, const Play& play);

/// Lists the legal plays of a roll, one for each distinct resulting board, in a fixed order
/// (farther checkers first). Empty when there is no legal move. Keeps the capacity of `plays`.
/// Which play stands for a result that several lead to is fixed too: the one found first.
void legal_plays(const Board& board, Side side, Roll roll, std::vector<LegalPlay>& plays);

/// The same as a new vector.
std::vector<LegalPlay> legal_plays(const Board& board, Side side, Roll roll);

}  // namespace pointwright

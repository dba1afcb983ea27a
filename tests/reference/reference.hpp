#pragma once

#include <set>

#include "rules/board.hpp"
#include "rules/roll.hpp"

/// A second generator of legal plays, written from the wording of the rules in the plainest way
/// there is, to check the real one against. It tries every order of the dice and every sequence of
/// moves, legal turn or not, and applies the rules about using the dice to the finished list. It
/// shares nothing with rules/ but the types at its door.
namespace pointwright::reference {

/// Puts boards in some order, so that a set can hold them.
struct BoardOrder {
  bool operator()(const Board& a, const Board& b) const { return a.camps < b.camps; }
};

using Boards = std::set<Board, BoardOrder>;

/// The distinct boards that the legal plays of a roll lead to. Empty when there is no legal move.
Boards results(const Board& board, Side side, Roll roll);

}  // namespace pointwright::reference

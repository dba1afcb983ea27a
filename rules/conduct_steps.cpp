#include "rules/conduct_steps.hpp"

#include <string>

#include "rules/book/cube.hpp"
#include "rules/book/game.hpp"
#include "rules/book/turn.hpp"

namespace pointwright {

std::optional<Refusal> out_of_phase(const Table& table, Phase wanted, const SideNames& names) {
  if (table.phase == wanted) return std::nullopt;
  const auto to_play = [&] { return names[*table.position.turn]; };
  switch (table.phase) {
    case Phase::opening:
      return Refusal{&book::opening_roll,
                     "The game has not begun: each side throws one die to see who plays first."};
    case Phase::to_roll:
      return Refusal{&book::turns_alternate,
                     to_play() + " is to roll; the dice are not on the board yet."};
    case Phase::offered:
      return Refusal{&book::cube_take_or_drop, to_play() + " has offered the cube; " +
                                                   names[opponent(*table.position.turn)] +
                                                   " takes or drops before anything else happens."};
    case Phase::beavered:
      return Refusal{&book::cube_take_or_drop, names[opponent(*table.position.turn)] +
                                                   " has answered with a beaver; " + to_play() +
                                                   " takes or drops before anything else happens."};
    case Phase::to_play:
      return Refusal{&book::turns_alternate, to_play() + " has rolled " +
                                                 to_text(*table.position.roll) +
                                                 " and has not lifted its dice yet."};
    case Phase::over:
      break;
  }
  return Refusal{&book::win, "The game is over: " + names[table.result->winner] + " has won it."};
}

Table begin_turn(Table table, Side side, std::optional<Roll> roll) {
  table.position.board = table.board;
  table.position.turn = side;
  table.position.roll = roll;
  table.phase = roll ? Phase::to_play : Phase::to_roll;
  table.moved.clear();
  table.early_roll.reset();
  return table;
}

Table end_game(Table table, const GameResult& result) {
  table.position.board = table.board;
  table.position.turn.reset();
  table.position.roll.reset();
  table.phase = Phase::over;
  table.moved.clear();
  table.early_roll.reset();
  table.result = result;
  return table;
}

}  // namespace pointwright

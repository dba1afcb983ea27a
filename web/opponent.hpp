#pragma once

#include <string>
#include <vector>

#include "judge/search.hpp"
#include "rules/conduct.hpp"

/// The program as a player at the table. It looks one roll ahead at plays, and at once at the cube.
namespace pointwright::web {

/// What the program does next, as lines for the record (web/game.hpp), and why in a sentence.
/// Throwing is left to the page, which owns the dice: then `events` is empty and `throws` set.
struct Decision {
  std::vector<std::string> events;
  bool throws = false;
  std::string reason;
};

/// Decides for the side that the table waits for. Precondition: the game is neither over nor
/// waiting for the opening.
Decision decide(const Table& table, const SideNames& names);

/// All legal plays of a position that has a roll, the best first, by a search of one roll where no
/// exact answer is known. Empty when the side dances or the game is over.
std::vector<judge::RankedPlay> rank_plays(const Position& position);

/// What the game is played for, seen by the side to play; for points where the match is beyond the
/// match table.
judge::Valuation stakes_of(const Position& position);

}  // namespace pointwright::web

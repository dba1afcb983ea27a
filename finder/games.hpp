#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "finder/search.hpp"

/// Games that are played to be looked through: positions that come up in play. A game is decided by
/// its number, so nothing need be stored.
namespace pointwright::finder {

/// One turn of a game.
struct Turn {
  Board before;
  Side side = Side::light;
  Roll roll{1, 2};
  Play play;
};

/// Plays the game of that number, until somebody has won. Both sides play by simple habits: they
/// like to hit, to make points and to leave few blots where they can be hit, and now and then do
/// something else. Calls `turn` for each turn before it is played; stops when it returns false.
void play_game(std::uint64_t number, const std::function<bool(const Turn&, int turn)>& turn);

/// Which of the plays those habits like best, chance aside: the play that comes to a beginner's
/// mind. The first of equals. Precondition: `plays` is not empty.
std::size_t natural_play(const std::vector<LegalPlay>& plays, Side side);

/// Looks through one game for the query. The positions are turned so that the wanted side is to
/// play. With an open roll the roll of the game is looked at only. Returns how many positions were
/// looked at.
std::int64_t look_through(const Wanted& wanted, std::uint64_t number,
                          const std::function<bool(const Finding&, int turn)>& take);

/// The turns of a game before that one: how the position is reached.
std::vector<Turn> way_to(std::uint64_t number, int turn);

}  // namespace pointwright::finder

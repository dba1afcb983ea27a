#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "rules/cube.hpp"
#include "rules/play.hpp"
#include "rules/position.hpp"
#include "rules/refusal.hpp"
#include "rules/result.hpp"
#include "rules/roll.hpp"
#include "rules/ruling.hpp"
#include "rules/score.hpp"

/// The conduct of a game at the table, as a state machine without time or chance: every event is a
/// function from one table to the next, dice are handed in, and an event that the rules refuse
/// returns the reason and changes nothing.
namespace pointwright {

/// Two dice as they came to rest.
struct Throw {
  int first = 1;
  int second = 1;
  bool flat = true;  ///< false: a die is cocked, so neither counts
};

/// What the table waits for.
enum class Phase : std::uint8_t {
  opening,   ///< each side throws one die
  to_roll,   ///< the side to play throws its dice, or offers the cube
  offered,   ///< the other side takes, drops or beavers
  beavered,  ///< the side that offered accepts the beaver or drops
  to_play,   ///< the side to play moves checkers and lifts its dice
  over,      ///< the game has a result
};

/// One game as it stands on the table.
struct Table {
  Phase phase = Phase::opening;
  Position position;  ///< as it was when the turn began; roll set while the dice lie on the board
  Board board;        ///< as the checkers stand now, moves of an unfinished turn included
  std::vector<Move> moved;           ///< the moves of the unfinished turn, legal or not, in order
  std::optional<Roll> early_roll;    ///< thrown too early by the other side, and standing
  int ties = 0;                      ///< of the opening
  std::optional<Play> last_play;     ///< the last turn that was finished, in canonical form
  std::optional<GameResult> result;  ///< set when the game is over
  friend bool operator==(const Table&, const Table&) = default;
};

/// The next table, or why the event is refused.
using TableEvent = Result<Table, Refusal>;

/// A new game: checkers set up, cube in the middle at 1, the opening to be thrown.
/// Precondition: the match, if there is one, is not over.
Table new_game(const HouseRules& house = {}, std::optional<MatchScore> match = std::nullopt);

/// The game after one that is over, with the new score if it belongs to a match. Refused while the
/// game goes on, and when the match is over.
TableEvent next_game(const Table& table, const SideNames& names = {});

/// Each side throws one die. The higher begins and plays both numbers; a tie changes only the count
/// of ties and, with automatic doubles, the cube. A cocked die is refused: both throw again.
TableEvent throw_opening(const Table& table, int light_die, int dark_die, bool flat = true,
                         const SideNames& names = {});

/// A side throws both dice. Cocked dice are refused: both are thrown again. A throw by the other
/// side before the turn has ended is refused, unless the house rule lets it stand; then it becomes
/// that side's roll as soon as the turn ends.
TableEvent throw_dice(const Table& table, Side by, Throw dice, const SideNames& names = {});

/// The side to play puts one of its checkers elsewhere. Anything is possible until the dice are
/// lifted, except what cannot be done with checkers at all: moving one that is not there, off the
/// tray, onto the bar or nowhere. A lone opposing checker goes to the bar.
/// Places are as the side to play counts.
TableEvent move_checker(const Table& table, Place from, Place to, const SideNames& names = {});

/// Takes the last move of the unfinished turn back, and with it a hit.
TableEvent take_back(const Table& table, const SideNames& names = {});

/// Takes all moves of the unfinished turn back.
TableEvent take_back_all(const Table& table, const SideNames& names = {});

/// The side to play lifts its dice, which ends the turn. Refused, with the referee's ruling, unless
/// the checkers stand as a complete legal play leaves them. Ends the game if all are borne off.
TableEvent lift_dice(const Table& table, Side by, const SideNames& names = {});

/// A side offers the cube.
TableEvent offer_cube(const Table& table, Side by, const SideNames& names = {});

/// The side that was offered the cube, or a beaver, takes it.
TableEvent take_cube(const Table& table, Side by, const SideNames& names = {});

/// The side that was offered the cube, or a beaver, drops: the game is over.
TableEvent drop_cube(const Table& table, Side by, const SideNames& names = {});

/// The side that was offered the cube takes it and at once doubles again (house rule beavers).
TableEvent beaver(const Table& table, Side by, const SideNames& names = {});

}  // namespace pointwright

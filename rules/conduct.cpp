#include "rules/conduct.hpp"

#include <string>

#include "rules/book/cube.hpp"
#include "rules/book/game.hpp"
#include "rules/book/match.hpp"
#include "rules/book/turn.hpp"
#include "rules/conduct_steps.hpp"
#include "rules/opening.hpp"

namespace pointwright {
namespace {

std::optional<Refusal> unreadable(std::initializer_list<int> dice, bool flat) {
  for (const int die : dice)
    if (die < 1 || die > 6)
      return Refusal{&book::valid_roll, "A die shows 1 to 6, not " + std::to_string(die) + "."};
  if (!flat)
    return Refusal{&book::cocked_dice,
                   "A die does not lie flat on its half of the board, so neither counts: both are "
                   "thrown again."};
  return std::nullopt;
}

/// A throw by the side that is not to play.
TableEvent throw_early(const Table& table, Side by, Throw dice, const SideNames& names) {
  const std::string& other = names[opponent(by)];
  if (table.phase == Phase::to_roll)
    return Refusal{&book::turns_alternate, "It is " + other + "'s turn, and " + other +
                                               " has not rolled yet; " + names[by] +
                                               " throws when that turn has ended."};
  if (table.early_roll)
    return Refusal{&book::premature_roll, names[by] + " has already thrown " +
                                              to_text(*table.early_roll) +
                                              " too early, and that roll stands."};
  if (!table.position.house.premature_roll_stands)
    return Refusal{&book::premature_roll,
                   other +
                       " has not lifted its dice, so its turn goes on. The throw is void, and " +
                       names[by] + " throws again when the turn has ended."};
  Table next = table;
  next.early_roll = Roll(dice.first, dice.second);
  return next;
}

}  // namespace

Table new_game(const HouseRules& house, std::optional<MatchScore> match) {
  Table table;
  table.position.board = starting_board();
  table.position.house = house;
  table.position.match = match;
  table.board = table.position.board;
  return table;
}

TableEvent next_game(const Table& table, const SideNames& names) {
  if (table.phase != Phase::over)
    return Refusal{&book::win,
                   "The game goes on: nobody has borne off all checkers or dropped the cube."};
  std::optional<MatchScore> match = table.position.match;
  if (match) {
    match = after_game(*match, table.result->winner, table.result->points);
    if (const std::optional<Side> winner = match_winner(*match))
      return Refusal{&book::match_length, names[*winner] + " has won the match to " +
                                              std::to_string(match->length) +
                                              ": no further game is played in it."};
  }
  return new_game(table.position.house, match);
}

TableEvent throw_opening(const Table& table, int light_die, int dark_die, bool flat,
                         const SideNames& names) {
  if (table.phase != Phase::opening && table.phase != Phase::over)
    return Refusal{&book::opening_roll,
                   "The opening has been thrown; from now on each side throws both dice."};
  if (std::optional<Refusal> refusal = out_of_phase(table, Phase::opening, names)) return *refusal;
  if (std::optional<Refusal> refusal = unreadable({light_die, dark_die}, flat)) return *refusal;
  if (const std::optional<Side> first = opening_winner(light_die, dark_die))
    return begin_turn(table, *first, Roll(light_die, dark_die));
  Table next = table;
  ++next.ties;
  if (in_force(table.position.house, table.position.match.has_value()).automatic_doubles) {
    if (table.position.cube.value >= largest_cube)
      return Refusal{nullptr, "The game has no upper limit, but this program counts cubes up to " +
                                  std::to_string(largest_cube) + "."};
    next.position.cube.value *= 2;
  }
  return next;
}

TableEvent throw_dice(const Table& table, Side by, Throw dice, const SideNames& names) {
  const bool waiting = table.phase == Phase::to_roll || table.phase == Phase::to_play;
  if (!waiting) return *out_of_phase(table, Phase::to_roll, names);
  if (std::optional<Refusal> refusal = unreadable({dice.first, dice.second}, true)) return *refusal;
  if (by == *table.position.turn)
    if (std::optional<Refusal> refusal = out_of_phase(table, Phase::to_roll, names))
      return *refusal;
  if (std::optional<Refusal> refusal = unreadable({}, dice.flat)) return *refusal;
  if (by != *table.position.turn) return throw_early(table, by, dice, names);
  return begin_turn(table, by, Roll(dice.first, dice.second));
}

TableEvent offer_cube(const Table& table, Side by, const SideNames& names) {
  // In the phases in which a position alone does not say what is going on, the table does.
  if (table.phase != Phase::to_roll && table.phase != Phase::to_play)
    return *out_of_phase(table, Phase::to_roll, names);
  if (table.early_roll && by == opponent(*table.position.turn))
    return Refusal{&book::cube_before_roll,
                   names[by] + " has already thrown " + to_text(*table.early_roll) +
                       " for its next turn; the cube is offered before the dice are thrown."};
  const CubeRuling ruling = may_offer(table.position, by, names);
  if (!ruling.allowed) return Refusal{ruling.rule, ruling.proof};
  Table next = table;
  next.phase = Phase::offered;
  return next;
}

namespace {

/// Why `by` may not answer now, or nothing if an offer is waiting for it.
std::optional<Refusal> not_asked(const Table& table, Side by, const SideNames& names) {
  const bool asked = table.phase == Phase::offered || table.phase == Phase::beavered;
  if (!asked) return Refusal{&book::cube_take_or_drop, "No cube has been offered."};
  const Side offerer = *table.position.turn;
  const Side answers = table.phase == Phase::offered ? opponent(offerer) : offerer;
  if (by == answers) return std::nullopt;
  return out_of_phase(table, Phase::to_roll, names);
}

}  // namespace

TableEvent take_cube(const Table& table, Side by, const SideNames& names) {
  if (std::optional<Refusal> refusal = not_asked(table, by, names)) return *refusal;
  const Result<Position, Refusal> taken = table.phase == Phase::offered
                                              ? after_take(table.position, names)
                                              : after_beaver(table.position, names);
  if (!taken) return taken.error();
  Table next = table;
  next.position = *taken;
  next.phase = Phase::to_roll;
  return next;
}

TableEvent drop_cube(const Table& table, Side by, const SideNames& names) {
  if (std::optional<Refusal> refusal = not_asked(table, by, names)) return *refusal;
  const Result<GameResult, Refusal> result = table.phase == Phase::offered
                                                 ? after_drop(table.position, names)
                                                 : after_beaver_drop(table.position, names);
  if (!result) return result.error();
  return end_game(table, *result);
}

TableEvent beaver(const Table& table, Side by, const SideNames& names) {
  if (std::optional<Refusal> refusal = not_asked(table, by, names)) return *refusal;
  if (table.phase == Phase::beavered)
    return Refusal{&book::cube_take_or_drop, "A beaver is taken or dropped."};
  const Result<Position, Refusal> accepted = after_beaver(table.position, names);
  if (!accepted) return accepted.error();
  Table next = table;
  next.phase = Phase::beavered;
  return next;
}

}  // namespace pointwright

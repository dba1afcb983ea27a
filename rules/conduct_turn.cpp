// The part of a turn in which checkers move: up to the moment when the dice are lifted.

#include <string>

#include "rules/book/moving.hpp"
#include "rules/book/turn.hpp"
#include "rules/conduct.hpp"
#include "rules/conduct_steps.hpp"

namespace pointwright {
namespace {

/// Puts a checker elsewhere, wherever that is, and hits a lone opposing checker there.
bool place(Board& board, Side side, Place from, Place to) {
  Camp& own = board.of(side);
  Camp& other = board.of(opponent(side));
  --own[from];
  ++own[to];
  if (to == off_place || other[mirrored(to)] != 1) return false;
  other[mirrored(to)] = 0;
  ++other[bar_place];
  return true;
}

void unplace(Board& board, Side side, const Move& move) {
  Camp& own = board.of(side);
  Camp& other = board.of(opponent(side));
  --own[move.to];
  ++own[move.from];
  if (!move.hit) return;
  --other[bar_place];
  other[mirrored(move.to)] = 1;
}

std::optional<Refusal> impossible(const Board& board, Side side, Place from, Place to,
                                  const SideNames& names) {
  const std::string& who = names[side];
  if (from == off_place || from > bar_place)
    return Refusal{&book::own_checker, "A checker moves from the bar or from a point 1 to 24."};
  if (board.count(side, from) == 0)
    return Refusal{&book::own_checker, who + " has no checker on " + to_text(from) + "."};
  if (to >= bar_place)
    return Refusal{&book::forward_only,
                   "A checker moves to a point 1 to 24, or off; only a hit puts one on the bar."};
  if (to == from)
    return Refusal{&book::dice_numbers,
                   "From " + to_text(from) + " to " + to_text(to) + " is no move."};
  return std::nullopt;
}

/// The moves of an unfinished turn as somebody would write them.
Attempt as_attempt(const std::vector<Move>& moved) {
  Attempt attempt;
  for (const Move& move : moved) {
    if (!attempt.text.empty()) attempt.text += ' ';
    const std::size_t begin = attempt.text.size();
    attempt.text += to_text(move.from) + "/" + to_text(move.to) + (move.hit ? "*" : "");
    attempt.journeys.push_back(
        {{move.from, move.to}, {false, move.hit}, {begin, attempt.text.size()}});
  }
  if (moved.empty()) attempt.text = "no play";
  return attempt;
}

Table finish_turn(const Table& table, const Play& play) {
  Table next = table;
  next.last_play = play;
  next.position.board = table.board;
  if (const std::optional<GameResult> result = result_of(next.position))
    return end_game(std::move(next), *result);
  return begin_turn(std::move(next), opponent(*table.position.turn), table.early_roll);
}

}  // namespace

TableEvent move_checker(const Table& table, Place from, Place to, const SideNames& names) {
  if (std::optional<Refusal> refusal = out_of_phase(table, Phase::to_play, names)) return *refusal;
  const Side side = *table.position.turn;
  if (std::optional<Refusal> refusal = impossible(table.board, side, from, to, names))
    return *refusal;
  Table next = table;
  const bool hit = place(next.board, side, from, to);
  next.moved.push_back({from, to, hit});
  return next;
}

TableEvent take_back(const Table& table, const SideNames& names) {
  if (std::optional<Refusal> refusal = out_of_phase(table, Phase::to_play, names)) return *refusal;
  if (table.moved.empty())
    return Refusal{&book::dice_lifted, "No checker has been moved in this turn."};
  Table next = table;
  unplace(next.board, *table.position.turn, table.moved.back());
  next.moved.pop_back();
  return next;
}

TableEvent take_back_all(const Table& table, const SideNames& names) {
  if (std::optional<Refusal> refusal = out_of_phase(table, Phase::to_play, names)) return *refusal;
  Table next = table;
  next.board = table.position.board;
  next.moved.clear();
  return next;
}

TableEvent lift_dice(const Table& table, Side by, const SideNames& names) {
  if (std::optional<Refusal> refusal = out_of_phase(table, Phase::to_play, names)) return *refusal;
  const Position& position = table.position;
  if (by != *position.turn)
    return Refusal{&book::dice_lifted, "The dice are " + names[*position.turn] +
                                           "'s; only the side that threw them lifts them."};
  const std::vector<LegalPlay> plays = legal_plays(position.board, by, *position.roll);
  if (plays.empty() && table.board == position.board) return finish_turn(table, Play{});
  for (const LegalPlay& legal : plays)
    if (legal.after == table.board) return finish_turn(table, legal.play);
  const Ruling ruling = rule_on(position, as_attempt(table.moved), names);
  if (!ruling.allowed) return Refusal{ruling.rule, ruling.proof, ruling.alternatives};
  // A legal way to write these moves ends on another board, so checkers were put astray by hand.
  return Refusal{&book::dice_numbers,
                 "The checkers do not stand as a play of " + to_text(*position.roll) +
                     " leaves them; take the moves back and make the play again.",
                 {ruling.play}};
}

}  // namespace pointwright

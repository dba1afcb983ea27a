// The referee against the list of legal plays, on random boards and random attempts.

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include "rules/obligation.hpp"
#include "rules/ruling.hpp"
#include "tests/rules/random_positions.hpp"

namespace pointwright {
namespace {

using Random = std::mt19937_64;

int below(Random& random, int n) {
  return static_cast<int>(random() % static_cast<unsigned>(n));
}

/// A few checkers of `side` among points that the other side has made: must-play rules come up
/// often.
Board crowded_board(Side side, Random& random) {
  Board board;
  Camp& own = board.of(side);
  Camp& others = board.of(opponent(side));
  others[off_place] = checkers_per_side;
  for (int made = 4 + below(random, 4); made > 0; --made) {
    auto point = static_cast<Place>(1 + below(random, 24));
    while (others[point] != 0) point = static_cast<Place>(1 + below(random, 24));
    const int count = below(random, 5) == 0 ? 1 : 2;
    others[point] = static_cast<std::uint8_t>(count);
    others[off_place] = static_cast<std::uint8_t>(others[off_place] - count);
  }
  own[off_place] = checkers_per_side;
  for (int count = 1 + below(random, 4); count > 0; --count) {
    auto place = static_cast<Place>(1 + below(random, bar_place));
    while (place != bar_place && others[mirrored(place)] != 0)
      place = static_cast<Place>(1 + below(random, bar_place));
    ++own[place];
    --own[off_place];
  }
  return board;
}

Position random_case(Random& random) {
  Position position;
  position.turn = below(random, 2) == 0 ? Side::light : Side::dark;
  position.board =
      below(random, 2) == 0 ? testing::random_board(random) : crowded_board(*position.turn, random);
  position.roll = Roll(1 + below(random, 6), 1 + below(random, 6));
  return position;
}

Attempt read(const std::string& text) {
  const auto attempt = read_play(text);
  EXPECT_TRUE(attempt) << text << ": " << (attempt ? "" : attempt.error().front().reason);
  return attempt ? *attempt : Attempt{};
}

std::string context(const Position& position, const std::string& attempt) {
  return to_text(position) + " | " + attempt;
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
  return text;
}

/// Every move by itself, in random order.
std::string split_text(const Play& play, bool stars, Random& random) {
  std::vector<std::string> words;
  for (const Move& move : play)
    words.push_back(to_text(move.from) + "/" + to_text(move.to) + (stars && move.hit ? "*" : ""));
  std::shuffle(words.begin(), words.end(), random);
  return joined(words);
}

std::string without_stars(std::string text) {
  std::erase(text, '*');
  return text;
}

bool leads_to(const std::vector<LegalPlay>& legal, const Board& board) {
  return std::ranges::any_of(legal, [&](const LegalPlay& play) { return play.after == board; });
}

TEST(RulingProperty, EveryLegalPlayIsAllowedHoweverItIsWritten) {
  Random random(21);
  for (int i = 0; i < 3'000; ++i) {
    const Position position = random_case(random);
    const Side side = *position.turn;
    auto legal = legal_plays(position.board, side, *position.roll);
    std::shuffle(legal.begin(), legal.end(), random);
    if (legal.size() > 12) legal.resize(12);
    for (const LegalPlay& play : legal) {
      for (const std::string& text : {to_text(play.play), split_text(play.play, true, random),
                                      split_text(play.play, false, random)}) {
        const Ruling ruling = rule_on(position, read(text));
        ASSERT_TRUE(ruling.allowed) << context(position, text) << ": " << ruling.proof;
        ASSERT_EQ(ruling.after, play.after) << context(position, text);
        ASSERT_EQ(after(position.board, side, ruling.play), play.after);
        ASSERT_EQ(ruling.rule, nullptr);
        ASSERT_TRUE(ruling.alternatives.empty());
      }
      // Without its stars a merged play may mean another way, but never other checkers.
      const std::string plain = without_stars(to_text(play.play));
      const Ruling ruling = rule_on(position, read(plain));
      if (ruling.allowed)
        ASSERT_EQ(ruling.after.of(side), play.after.of(side)) << context(position, plain);
      else
        ASSERT_EQ(ruling.rule->id, "one-meaning") << context(position, plain);
    }
  }
}

/// The rules of one step, written out anew and plainly.
bool step_is_fine(const Board& board, Side side, const Move& move, int die) {
  const Camp& own = board.of(side);
  if (own[move.from] == 0) return false;
  if (move.from != bar_place && own[bar_place] > 0) return false;
  if (move.to != off_place)
    return move.from - move.to == die && board.count(opponent(side), 25 - move.to) < 2;
  for (int place = 7; place <= 25; ++place) {
    if (own[static_cast<std::size_t>(place)] > 0) return false;
  }
  if (move.from == die) return true;
  for (int place = move.from + 1; place <= 6; ++place) {
    if (own[static_cast<std::size_t>(place)] > 0) return false;
  }
  return move.from < die;
}

/// Whether the moves can be made in some order, each with a die of its own.
bool can_be_made(const Board& board, Side side, std::vector<Move> moves, std::vector<int> dice) {
  if (moves.empty()) return true;
  for (std::size_t m = 0; m < moves.size(); ++m) {
    for (std::size_t d = 0; d < dice.size(); ++d) {
      if (!step_is_fine(board, side, moves[m], dice[d])) continue;
      Board next = board;
      make_move(next, side, moves[m].from, moves[m].to);
      auto other_moves = moves;
      auto other_dice = dice;
      other_moves.erase(other_moves.begin() + static_cast<std::ptrdiff_t>(m));
      other_dice.erase(other_dice.begin() + static_cast<std::ptrdiff_t>(d));
      if (can_be_made(next, side, other_moves, other_dice)) return true;
    }
  }
  return false;
}

/// Moves of single dice, each die of the roll at most as often as it may be played. The moves need
/// not be possible. Returns the text, and makes the moves on `result` if there are checkers for
/// them.
struct SingleDice {
  std::string text;
  Board result;
  bool possible = true;
};

SingleDice random_single_dice(const Position& position, Random& random) {
  const Side side = *position.turn;
  std::vector<int> dice{position.roll->high(), position.roll->low()};
  if (position.roll->is_double()) dice.insert(dice.end(), 2, dice.front());
  std::shuffle(dice.begin(), dice.end(), random);
  const std::vector<int> all = dice;
  dice.resize(static_cast<std::size_t>(1 + below(random, static_cast<int>(dice.size()))));
  SingleDice attempt;
  attempt.result = position.board;
  std::vector<std::string> words;
  std::vector<Move> moves;
  for (const int die : dice) {
    std::vector<Place> starts;
    for (Place place = 1; place <= bar_place; ++place) {
      if (attempt.result.count(side, place) > 0) starts.push_back(place);
    }
    if (starts.empty()) break;
    const Place from = starts[random() % starts.size()];
    const Place to = from > die ? static_cast<Place>(from - die) : off_place;
    make_move(attempt.result, side, from, to);
    moves.push_back({from, to, false});
    words.push_back(to_text(from) + "/" + to_text(to));
  }
  attempt.possible = can_be_made(position.board, side, moves, all);
  std::shuffle(words.begin(), words.end(), random);
  attempt.text = joined(words);
  return attempt;
}

TEST(RulingProperty, MovesOfSingleDiceAreAllowedIfTheyCanBeMadeAndTheirResultIsLegal) {
  Random random(22);
  int allowed = 0;
  int refused = 0;
  int detours = 0;
  for (int i = 0; i < 60'000; ++i) {
    const Position position = random_case(random);
    const SingleDice attempt = random_single_dice(position, random);
    if (attempt.text.empty()) continue;
    const auto legal = legal_plays(position.board, *position.turn, *position.roll);
    const bool expected = attempt.possible && leads_to(legal, attempt.result);
    const Ruling ruling = rule_on(position, read(attempt.text));
    SCOPED_TRACE(context(position, attempt.text) + ": " + ruling.proof);
    if (ruling.allowed && !expected) {
      // 3/off with one die may also mean 3/1*/off with both, which hits on the way.
      const Side side = *position.turn;
      ASSERT_EQ(ruling.after.of(side), attempt.result.of(side));
      ASSERT_GT(attempt.result.count(side, off_place), position.board.count(side, off_place));
      ASSERT_NE(ruling.after.of(opponent(side)), attempt.result.of(opponent(side)));
      ASSERT_TRUE(leads_to(legal, ruling.after));
      ++detours;
      continue;
    }
    ASSERT_EQ(ruling.allowed, expected);
    if (expected) ASSERT_EQ(ruling.after, attempt.result);
    ++(expected ? allowed : refused);
  }
  EXPECT_LT(detours, 100);
  EXPECT_GT(allowed, 3'000);
  EXPECT_GT(refused, 3'000);
}

TEST(RulingProperty, MergedMovesGoByOpenStopsAndAvoidHitsWithoutAStar) {
  // One checker plays both dice. The two ways are looked at directly, without the referee's search.
  Random random(23);
  std::map<std::string, int> seen;
  for (int i = 0; i < 120'000; ++i) {
    const Position position = random_case(random);
    const Side side = *position.turn;
    const Roll roll = *position.roll;
    const Board& board = position.board;
    if (roll.is_double() || board.count(side, bar_place) > 0) continue;
    const auto from = static_cast<Place>(1 + below(random, 24));
    if (from <= roll.pips() || board.count(side, from) == 0) continue;
    const auto to = static_cast<Place>(from - roll.pips());
    const auto there = [&](Place place) { return board.count(opponent(side), mirrored(place)); };
    std::vector<Place> stops;
    for (const int die : {roll.high(), roll.low()}) {
      const auto stop = static_cast<Place>(from - die);
      if (there(stop) < 2) stops.push_back(stop);
    }
    const auto free_of_blots = [&](Place stop) { return there(stop) == 0; };
    const std::string text = to_text(from) + "/" + to_text(to);
    const Ruling ruling = rule_on(position, read(text));
    SCOPED_TRACE(context(position, text) + ": " + ruling.proof);
    if (there(to) > 1) {
      ASSERT_EQ(ruling.rule->id, "blocked-point");
      ++seen["end blocked"];
    } else if (stops.empty()) {
      ASSERT_EQ(ruling.rule->id, "one-die-at-a-time");
      ++seen["stops blocked"];
    } else if (stops.size() == 2 && std::ranges::none_of(stops, free_of_blots)) {
      ASSERT_EQ(ruling.rule->id, "one-meaning");
      ++seen["two blots"];
    } else {
      const auto quiet = std::ranges::find_if(stops, free_of_blots);
      const Place stop = quiet != stops.end() ? *quiet : stops.front();
      Board expected = board;
      make_move(expected, side, from, stop);
      make_move(expected, side, stop, to);
      ASSERT_TRUE(ruling.allowed);
      ASSERT_EQ(ruling.after, expected);
      ++seen[quiet != stops.end() ? "quiet way" : "hitting way"];
    }
  }
  for (const char* kind : {"end blocked", "stops blocked", "two blots", "quiet way", "hitting way"})
    EXPECT_GT(seen[kind], 20) << kind;
}

/// Anything: single or merged moves, dice that were not rolled, empty points, wrong directions.
std::string random_anything(const Position& position, Random& random) {
  if (below(random, 40) == 0) return "no play";
  const Side side = *position.turn;
  std::vector<std::string> words;
  const int moves = 1 + below(random, position.roll->is_double() ? 4 : 3);
  Place last = off_place;
  for (int i = 0; i < moves; ++i) {
    auto from = static_cast<Place>(1 + below(random, bar_place));
    for (int tries = 0; tries < 20 && position.board.count(side, from) == 0; ++tries)
      from = static_cast<Place>(1 + below(random, bar_place));
    if (last != off_place && below(random, 4) == 0) from = last;
    int distance = below(random, 2) == 0 ? position.roll->high() : position.roll->low();
    if (below(random, 8) == 0) distance = position.roll->high() + position.roll->low();
    if (below(random, 20) == 0) distance = 1 + below(random, 12);
    if (below(random, 40) == 0 && from + distance <= 24) distance = -distance;
    last = static_cast<Place>(std::max(from - distance, 0));
    words.push_back(to_text(from) + "/" + to_text(last) +
                    (last != off_place && below(random, 10) == 0 ? "*" : ""));
  }
  return joined(words);
}

bool has_off(const Attempt& attempt) {
  return std::ranges::any_of(
      attempt.journeys, [](const Journey& journey) { return journey.stops.back() == off_place; });
}

bool any_leg(const Attempt& attempt, const auto& holds) {
  return std::any_of(attempt.journeys.begin(), attempt.journeys.end(), [&](const Journey& journey) {
    for (std::size_t i = 1; i < journey.stops.size(); ++i) {
      if (holds(journey.stops[i - 1], journey.stops[i])) return true;
    }
    return false;
  });
}

/// The facts that each rule needs to be the reason, checked afresh on the board.
bool rule_applies(std::string_view id, const Position& position, const Attempt& attempt,
                  const std::vector<LegalPlay>& legal) {
  const Board& board = position.board;
  const Side side = *position.turn;
  const Roll roll = *position.roll;
  const int most = legal.empty() ? 0 : legal.front().play.size();
  const auto held = [&](Place place) {
    return place != off_place && board.count(opponent(side), mirrored(place)) > 1;
  };
  const auto moves = static_cast<int>(attempt.journeys.size());
  if (id == "own-checker") {
    return std::ranges::any_of(attempt.journeys, [&](const Journey& a) {
      int starts = 0;
      for (const Journey& b : attempt.journeys) {
        starts += b.stops.front() == a.stops.front() ? 1 : 0;
        starts -= b.stops.back() == a.stops.front() ? 1 : 0;
      }
      return starts > board.count(side, a.stops.front());
    });
  }
  if (id == "forward-only") return any_leg(attempt, [](Place from, Place to) { return to > from; });
  if (id == "dice-numbers") {
    return any_leg(attempt, [&](Place from, Place to) {
      const int distance = from - to;
      if (to == off_place && distance <= roll.pips()) return false;
      if (roll.is_double())
        return distance % roll.high() != 0 || distance > roll.pips() || distance == 0;
      return distance != roll.high() && distance != roll.low() && distance != roll.pips();
    });
  }
  if (id == "die-once") return moves > 1;
  if (id == "bar-first") return board.count(side, bar_place) > 0;
  if (id == "blocked-point") return any_leg(attempt, [&](Place, Place to) { return held(to); });
  if (id == "one-die-at-a-time") {
    return any_leg(attempt, [&](Place from, Place to) {
      if (held(to)) return false;
      for (auto stop = static_cast<Place>(from - 1); stop > to; --stop) {
        if (held(stop)) return true;
      }
      return false;
    });
  }
  if (id == "all-home") return has_off(attempt) && (!all_home(board, side));
  if (id == "highest-first") return has_off(attempt);
  if (id == "no-passing") return moves == 0 && !legal.empty();
  if (id == "both-dice") return !roll.is_double() && most == 2;
  if (id == "larger-die") {
    return !roll.is_double() && most == 1 && can_play(board, side, roll.high()) &&
           can_play(board, side, roll.low());
  }
  if (id == "whole-double") return roll.is_double() && most > moves;
  if (id == "one-meaning")
    return any_leg(attempt, [&](Place from, Place to) { return from - to > roll.high(); });
  return false;
}

TEST(RulingProperty, EveryRefusalRestsOnFactsOfTheBoard) {
  Random random(24);
  std::map<std::string, int> seen;
  for (int i = 0; i < 60'000; ++i) {
    const Position position = random_case(random);
    const std::string text = random_anything(position, random);
    const Attempt attempt = read(text);
    const auto legal = legal_plays(position.board, *position.turn, *position.roll);
    const Ruling ruling = rule_on(position, attempt);
    SCOPED_TRACE(context(position, text) + ": " + ruling.proof);
    ASSERT_TRUE(ruling.proof.ends_with('.'));
    ASSERT_EQ(ruling.proof.find("  "), std::string::npos);
    if (ruling.allowed) {
      ASSERT_TRUE(legal.empty() ? ruling.play.empty() : leads_to(legal, ruling.after));
      ++seen["allowed"];
      continue;
    }
    ASSERT_NE(ruling.rule, nullptr);
    ASSERT_TRUE(rule_applies(ruling.rule->id, position, attempt, legal)) << ruling.rule->id;
    ASSERT_EQ(ruling.alternatives.size(), legal.size());
    for (const Play& play : ruling.alternatives)
      ASSERT_TRUE(leads_to(legal, after(position.board, *position.turn, play)));
    ASSERT_EQ(ruling.proof.find("no legal move with") != std::string::npos, legal.empty());
    ++seen[std::string(ruling.rule->id)];
  }
  for (const Rule* rule : rulebook()) {
    if (rule->about == Rule::About::play) EXPECT_GT(seen[std::string(rule->id)], 5) << rule->id;
  }
  EXPECT_GT(seen["allowed"], 1'000);
}

TEST(RulingProperty, SaysTruthfullyWhetherADieIsLeft) {
  // Single moves that are fine by themselves: what is said of the other die is checked on the
  // board.
  Random random(25);
  int spoiled = 0;
  int open = 0;
  int larger = 0;
  for (int i = 0; i < 150'000; ++i) {
    const Position position = random_case(random);
    const Side side = *position.turn;
    const Roll roll = *position.roll;
    const bool high = below(random, 2) == 0;
    const int die = high ? roll.high() : roll.low();
    const auto from = static_cast<Place>(die + 1 + below(random, 24 - die));
    const auto to = static_cast<Place>(from - die);
    const std::string text = to_text(from) + "/" + to_text(to);
    if (position.board.count(side, from) == 0) continue;
    const Ruling ruling = rule_on(position, read(text));
    if (ruling.allowed) continue;
    Board board = position.board;
    const std::string_view id = ruling.rule->id;
    if (id != "both-dice" && id != "larger-die" && id != "whole-double") continue;
    make_move(board, side, from, to);
    SCOPED_TRACE(context(position, text) + ": " + ruling.proof);
    const bool left = can_play(board, side, roll.high() + roll.low() - die);
    const bool said_none = ruling.proof.find("leaves no legal") != std::string::npos;
    if (id == "whole-double") {
      ASSERT_TRUE(left) << "with a double no move takes another away";
      ASSERT_FALSE(said_none);
    } else {
      ASSERT_EQ(said_none, !left);
      ++(id == "larger-die" ? larger : left ? open : spoiled);
    }
  }
  EXPECT_GT(spoiled, 20);
  EXPECT_GT(open, 1'000);
  EXPECT_GT(larger, 5);
}

}  // namespace
}  // namespace pointwright

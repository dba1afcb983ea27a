// Every event at the table in every phase: what follows, and which rule refuses it.

#include "rules/conduct.hpp"

#include <gtest/gtest.h>

#include <random>

#include "rules/opening.hpp"
#include "tests/rules/table_helpers.hpp"

namespace pointwright {
namespace {

constexpr Side light = Side::light;
constexpr Side dark = Side::dark;

HouseRules with(bool HouseRules::* member) {
  HouseRules house;
  house.*member = true;
  return house;
}

/// Light has opened with 6-4 and not moved.
Table opened(const HouseRules& house = {}) {
  return must(throw_opening(new_game(house), 6, 4));
}

/// Light has played 24/14 after the opening; dark is to roll.
Table dark_to_roll(const HouseRules& house = {}) {
  Table table = must(move_checker(opened(house), 24, 18));
  table = must(move_checker(table, 18, 14));
  return must(lift_dice(table, light));
}

TEST(Opening, NewGame) {
  const Table table = new_game();
  EXPECT_EQ(table.phase, Phase::opening);
  EXPECT_EQ(table.board, starting_board());
  EXPECT_EQ(table.position.board, starting_board());
  EXPECT_EQ(table.position.cube, Cube{});
  EXPECT_EQ(table.position.turn, std::nullopt);
  // 24x2 13x5 8x3 6x5 and 167 pips a side (common practice, every rule book).
  for (const Side side : {light, dark}) {
    EXPECT_EQ(pip_count(table.board, side), 167);
    EXPECT_EQ(2 * 24 + 5 * 13 + 3 * 8 + 5 * 6, 167);
    EXPECT_EQ(table.board.count(side, 24), 2);
    EXPECT_EQ(table.board.count(side, 13), 5);
    EXPECT_EQ(table.board.count(side, 8), 3);
    EXPECT_EQ(table.board.count(side, 6), 5);
  }
}

// One die each, ties thrown again, the higher plays both numbers (common practice): of the 36
// openings each side wins 15 and 6 are ties.
TEST(Opening, AllThirtySixThrows) {
  int wins[2] = {0, 0};
  int ties = 0;
  for (int a = 1; a <= 6; ++a) {
    for (int b = 1; b <= 6; ++b) {
      const Table table = must(throw_opening(new_game(), a, b));
      if (a == b) {
        ++ties;
        Table expected = new_game();
        expected.ties = 1;
        EXPECT_EQ(table, expected) << "a tie changes nothing else";
        continue;
      }
      const Side first = a > b ? light : dark;
      ++wins[index(first)];
      EXPECT_EQ(table.phase, Phase::to_play);
      EXPECT_EQ(table.position.turn, first);
      EXPECT_EQ(table.position.roll, Roll(a, b));
      EXPECT_EQ(opening_winner(a, b), first);
    }
  }
  EXPECT_EQ(wins[0], 15);
  EXPECT_EQ(wins[1], 15);
  EXPECT_EQ(ties, 6);
}

TEST(Opening, AutomaticDoublesOnlyWhereInForce) {
  Table table = new_game(with(&HouseRules::automatic_doubles));
  for (std::uint64_t ties = 1; ties <= 5; ++ties) {
    table = must(throw_opening(table, 3, 3));
    EXPECT_EQ(table.position.cube, (Cube{std::uint64_t{1} << ties, std::nullopt}));
  }
  EXPECT_EQ(table.ties, 5);
  table = must(throw_opening(table, 2, 5));
  EXPECT_EQ(table.position.cube.value, 32U);
  EXPECT_EQ(must(throw_opening(new_game(), 3, 3)).position.cube.value, 1U);
  const Table match = new_game(with(&HouseRules::automatic_doubles), new_match(5));
  EXPECT_EQ(must(throw_opening(match, 3, 3)).position.cube.value, 1U) << "not in a match";
  HouseRules cubeless = with(&HouseRules::automatic_doubles);
  cubeless.cube = false;
  EXPECT_EQ(must(throw_opening(new_game(cubeless), 3, 3)).position.cube.value, 1U);

  table = new_game(with(&HouseRules::automatic_doubles));
  table.position.cube.value = largest_cube;
  const TableEvent beyond = throw_opening(table, 3, 3);
  EXPECT_EQ(refused_by(beyond), "") << "the program's limit is no rule of the game";
  EXPECT_NE(beyond.error().proof.find("no upper limit"), std::string::npos);
}

TEST(Opening, Refusals) {
  EXPECT_EQ(refused_by(throw_opening(new_game(), 6, 4, false)), "cocked-dice");
  EXPECT_EQ(refused_by(throw_opening(new_game(), 7, 4)), "valid-roll");
  EXPECT_EQ(refused_by(throw_opening(new_game(), 6, 0)), "valid-roll");
  EXPECT_EQ(refused_by(throw_opening(opened(), 6, 4)), "opening-roll");
  EXPECT_EQ(refused_by(throw_opening(dark_to_roll(), 6, 4)), "opening-roll");
  for (const Side side : {light, dark}) {
    EXPECT_EQ(refused_by(throw_dice(new_game(), side, {3, 1})), "opening-roll");
    EXPECT_EQ(refused_by(offer_cube(new_game(), side)), "opening-roll");
    EXPECT_EQ(refused_by(lift_dice(new_game(), side)), "opening-roll");
  }
  EXPECT_EQ(refused_by(move_checker(new_game(), 24, 23)), "opening-roll");
  EXPECT_EQ(refused_by(take_back(new_game())), "opening-roll");
  EXPECT_EQ(refused_by(take_back_all(new_game())), "opening-roll");
  EXPECT_EQ(refused_by(next_game(new_game())), "win");
}

TEST(Throwing, GivesTheTurnItsRoll) {
  const Table table = must(throw_dice(dark_to_roll(), dark, {2, 5}));
  EXPECT_EQ(table.phase, Phase::to_play);
  EXPECT_EQ(table.position.roll, Roll(5, 2));
  EXPECT_EQ(table.position.turn, dark);
}

// Both dice flat on the surface, otherwise both are rerolled (U.S. Backgammon Tournament Rules and
// Procedures, 2008, sections 4.1 to 4.6).
TEST(Throwing, CockedDiceAreThrownAgain) {
  const Table before = dark_to_roll();
  for (int a = 1; a <= 6; ++a)
    for (int b = 1; b <= 6; ++b)
      EXPECT_EQ(refused_by(throw_dice(before, dark, {a, b, false})), "cocked-dice");
  EXPECT_EQ(must(throw_dice(before, dark, {6, 6})).position.roll, Roll(6, 6));
}

TEST(Throwing, Refusals) {
  EXPECT_EQ(refused_by(throw_dice(dark_to_roll(), dark, {0, 5})), "valid-roll");
  EXPECT_EQ(refused_by(throw_dice(dark_to_roll(), dark, {1, 7})), "valid-roll");
  EXPECT_EQ(refused_by(throw_dice(opened(), light, {2, 5})), "turns-alternate");
  EXPECT_EQ(refused_by(throw_dice(dark_to_roll(), light, {2, 5})), "turns-alternate");
  EXPECT_EQ(refused_by(move_checker(dark_to_roll(), 24, 23)), "turns-alternate");
  EXPECT_EQ(refused_by(take_back(dark_to_roll())), "turns-alternate");
  EXPECT_EQ(refused_by(lift_dice(dark_to_roll(), dark)), "turns-alternate");
}

// A premature roll is void at home (common practice); tournament rules let it stand if it is
// otherwise valid (U.S. Backgammon Tournament Rules and Procedures, 2008, sections 4.1 to 4.6).
TEST(PrematureRoll, VoidAtHome) {
  EXPECT_EQ(refused_by(throw_dice(opened(), dark, {2, 5})), "premature-roll");
  const Table moved = must(move_checker(opened(), 24, 18));
  EXPECT_EQ(refused_by(throw_dice(moved, dark, {2, 5})), "premature-roll");
}

TEST(PrematureRoll, StandsUnderTournamentRules) {
  const HouseRules house = with(&HouseRules::premature_roll_stands);
  EXPECT_EQ(refused_by(throw_dice(opened(house), dark, {2, 5, false})), "cocked-dice")
      << "only a roll that is otherwise valid stands";
  Table table = must(throw_dice(opened(house), dark, {2, 5}));
  EXPECT_EQ(table.position.roll, Roll(6, 4)) << "the turn goes on";
  EXPECT_EQ(table.early_roll, Roll(5, 2));
  EXPECT_EQ(refused_by(throw_dice(table, dark, {3, 3})), "premature-roll") << "thrown already";
  EXPECT_EQ(refused_by(offer_cube(table, dark)), "cube-before-roll");
  table = must(move_checker(table, 24, 14));
  table = must(lift_dice(table, light));
  EXPECT_EQ(table.phase, Phase::to_play) << "the early roll is the roll of the new turn";
  EXPECT_EQ(table.position.turn, dark);
  EXPECT_EQ(table.position.roll, Roll(5, 2));
  EXPECT_EQ(table.early_roll, std::nullopt);
  EXPECT_EQ(refused_by(offer_cube(table, dark)), "cube-before-roll") << "too late to double";
  EXPECT_EQ(refused_by(throw_dice(dark_to_roll(house), light, {2, 5})), "turns-alternate")
      << "nothing to throw for while the other side has not rolled";
}

TEST(PrematureRoll, IsMootWhenTheTurnEndsTheGame) {
  Table table = table_at("light 1x1; dark 1x1; light to play 2-1; house premature-roll-stands");
  table = must(throw_dice(table, dark, {6, 6}));
  table = must(lift_dice(must(move_checker(table, 1, off_place)), light));
  EXPECT_EQ(table.phase, Phase::over);
  EXPECT_EQ(table.early_roll, std::nullopt);
}

TEST(Moving, CheckersMoveFreelyUntilTheDiceAreLifted) {
  const Table start = opened();
  Table table = must(move_checker(start, 8, 2));
  table = must(move_checker(table, 6, 5));    // a 1, which was not rolled
  table = must(move_checker(table, 24, 19));  // onto five dark checkers
  table = must(move_checker(table, 13, 20));  // backwards
  EXPECT_EQ(table.position, start.position);
  EXPECT_EQ(table.moved.size(), 4U);
  EXPECT_EQ(table.board.count(light, 19), 1);
  EXPECT_EQ(table.board.count(dark, 6), 5) << "a made point is not hit";
  for (int i = 0; i < 4; ++i) table = must(take_back(table));
  EXPECT_EQ(table, start);
  EXPECT_EQ(refused_by(take_back(table)), "dice-lifted");
  EXPECT_EQ(must(take_back_all(table)), start);
}

TEST(Moving, HitsGoToTheBarAndComeBackWithTheMove) {
  const Table start = table_at("light 8x2 6x2; dark 21x1 13x2; light to play 4-2");
  const Table hit = must(move_checker(start, 8, 4));
  EXPECT_EQ(hit.board.count(dark, bar_place), 1);
  EXPECT_EQ(hit.board.count(dark, 21), 0);
  EXPECT_TRUE(hit.moved[0].hit);
  EXPECT_EQ(must(take_back(hit)), start);
  // Moving back by hand is not taking back: the other side's checker stays on the bar.
  const Table by_hand = must(move_checker(hit, 4, 8));
  EXPECT_EQ(by_hand.board.count(dark, bar_place), 1);
  EXPECT_FALSE(lift_dice(by_hand, light).ok());
  EXPECT_EQ(must(take_back_all(by_hand)), start);
}

TEST(Moving, Refusals) {
  const Table table = opened();
  EXPECT_EQ(refused_by(move_checker(table, 23, 22)), "own-checker");
  EXPECT_EQ(refused_by(move_checker(table, off_place, 4)), "own-checker");
  EXPECT_EQ(refused_by(move_checker(table, 26, 4)), "own-checker");
  EXPECT_EQ(refused_by(move_checker(table, 255, 4)), "own-checker");
  EXPECT_EQ(refused_by(move_checker(table, bar_place, 19)), "own-checker");
  EXPECT_EQ(refused_by(move_checker(table, 24, bar_place)), "forward-only");
  EXPECT_EQ(refused_by(move_checker(table, 24, 200)), "forward-only");
  EXPECT_EQ(refused_by(move_checker(table, 24, 24)), "dice-numbers");
}

// A turn ends when the player lifts a die (U.S. Backgammon Tournament Rules and Procedures, 2008,
// sections 4.1 to 4.6).
TEST(Lifting, EndsTheTurn) {
  const Table table = dark_to_roll();
  EXPECT_EQ(table.phase, Phase::to_roll);
  EXPECT_EQ(table.position.turn, dark);
  EXPECT_EQ(table.position.roll, std::nullopt);
  EXPECT_EQ(table.position.board, table.board);
  EXPECT_EQ(table.board.count(light, 14), 1);
  EXPECT_TRUE(table.moved.empty());
  ASSERT_TRUE(table.last_play);
  EXPECT_EQ(to_text(*table.last_play), "24/14");
}

TEST(Lifting, AnyWayToTheSameBoardWillDo) {
  Table table = must(move_checker(opened(), 24, 20));
  table = must(move_checker(table, 20, 24));  // put back by hand, nothing was hit
  table = must(move_checker(table, 24, 14));  // both dice in one sweep
  EXPECT_EQ(must(lift_dice(table, light)), dark_to_roll());
}

TEST(Lifting, RefusedWithTheRulingUntilThePlayIsLegalAndComplete) {
  const auto try_lift = [](std::string_view line, const std::vector<std::array<Place, 2>>& moves) {
    Table table = table_at(line);
    const Side side = *table.position.turn;
    for (const auto& [from, to] : moves) table = must(move_checker(table, from, to));
    const Table before = table;
    const TableEvent lifted = lift_dice(table, side);
    EXPECT_EQ(table, before);
    if (!lifted.ok()) {
      EXPECT_EQ(lifted.error().alternatives.empty(),
                legal_plays(table.position.board, side, *table.position.roll).empty());
    }
    return refused_by(lifted);
  };
  const std::string start = "light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; light to play ";
  EXPECT_EQ(try_lift(start + "3-1", {}), "no-passing");
  EXPECT_EQ(try_lift(start + "3-1", {{8, 5}}), "both-dice");
  EXPECT_EQ(try_lift(start + "3-1", {{8, 5}, {6, 5}}), "allowed");
  EXPECT_EQ(try_lift(start + "3-1", {{8, 5}, {6, 5}, {24, 23}}), "die-once");
  EXPECT_EQ(try_lift(start + "3-1", {{6, 9}, {8, 7}}), "forward-only");
  EXPECT_EQ(try_lift(start + "5-1", {{24, 19}, {24, 23}}), "blocked-point");
  EXPECT_EQ(try_lift(start + "4-2", {{8, 3}, {6, 4}}), "dice-numbers");
  EXPECT_EQ(try_lift("light barx1 13x5 8x3 6x6; dark 24x2 13x3 8x2 6x3 5x2 4x3; light to play 3-1",
                     {{8, 7}, {6, 3}}),
            "bar-first");
  EXPECT_EQ(try_lift("light 8x1 6x2 5x2; dark 6x3 5x3; light to play 6-1", {{6, 0}, {8, 7}}),
            "all-home");
  EXPECT_EQ(try_lift("light 6x1 5x2 2x2; dark 6x2 5x2; light to play 6-1", {{5, 0}, {2, 1}}),
            "highest-first");
  EXPECT_EQ(try_lift("light 12x1 3x2; dark 23x2 6x3; light to play 6-4", {{12, 8}}), "larger-die");
  EXPECT_EQ(try_lift("light 13x1 2x3; dark 24x2 6x3; light to play 3-3", {{13, 10}, {10, 7}}),
            "whole-double");
}

TEST(Lifting, OnlyByTheSideThatThrew) {
  const Table table = must(move_checker(opened(), 24, 14));
  EXPECT_EQ(refused_by(lift_dice(table, dark)), "dice-lifted");
}

TEST(Lifting, ASideThatCannotMoveLiftsAtOnce) {
  const Table dancing =
      table_at("light barx1 6x5; dark 6x2 5x2 4x2 3x2 2x2 1x2; light to play 5-2");
  const Table after = must(lift_dice(dancing, light));
  EXPECT_EQ(after.board, dancing.board);
  EXPECT_EQ(after.position.turn, dark);
  ASSERT_TRUE(after.last_play);
  EXPECT_TRUE(after.last_play->empty());
  EXPECT_FALSE(lift_dice(must(move_checker(dancing, 6, 4)), light).ok());
}

TEST(Lifting, TheLastCheckerEndsTheGame) {
  Table table = table_at("light 2x1 1x1; dark 13x2 8x3 6x10; light to play 6-4; cube 2 with dark");
  table = must(move_checker(table, 2, off_place));
  table = must(move_checker(table, 1, off_place));
  table = must(lift_dice(table, light));
  EXPECT_EQ(table.phase, Phase::over);
  EXPECT_EQ(table.result, (GameResult{light, WinKind::gammon, false, 4}));
  EXPECT_EQ(table.position.turn, std::nullopt);
  EXPECT_EQ(table.position.roll, std::nullopt);
  for (const Side side : {light, dark}) {
    EXPECT_EQ(refused_by(throw_dice(table, side, {1, 2})), "win");
    EXPECT_EQ(refused_by(offer_cube(table, side)), "win");
    EXPECT_EQ(refused_by(lift_dice(table, side)), "win");
    EXPECT_EQ(refused_by(take_cube(table, side)), "cube-take-or-drop");
  }
  EXPECT_EQ(refused_by(move_checker(table, 1, 0)), "win");
  EXPECT_EQ(refused_by(take_back(table)), "win");
  EXPECT_EQ(refused_by(throw_opening(table, 1, 2)), "win");
}

TEST(CubeAtTheTable, OfferTakeAndRoll) {
  const Table offered = must(offer_cube(dark_to_roll(), dark));
  EXPECT_EQ(offered.phase, Phase::offered);
  EXPECT_EQ(offered.position.cube.value, 1U) << "nothing changes until the answer";
  for (const Side side : {light, dark}) {
    EXPECT_EQ(refused_by(throw_dice(offered, side, {3, 1})), "cube-take-or-drop");
    EXPECT_EQ(refused_by(offer_cube(offered, side)), "cube-take-or-drop");
    EXPECT_EQ(refused_by(lift_dice(offered, side)), "cube-take-or-drop");
  }
  EXPECT_EQ(refused_by(move_checker(offered, 24, 23)), "cube-take-or-drop");
  EXPECT_EQ(refused_by(take_cube(offered, dark)), "cube-take-or-drop") << "light answers";
  EXPECT_EQ(refused_by(drop_cube(offered, dark)), "cube-take-or-drop");
  EXPECT_EQ(refused_by(beaver(offered, dark)), "cube-take-or-drop");
  EXPECT_EQ(refused_by(beaver(offered, light)), "cube-take-or-drop") << "house rule off";

  const Table taken = must(take_cube(offered, light));
  EXPECT_EQ(taken.phase, Phase::to_roll);
  EXPECT_EQ(taken.position.cube, (Cube{2, light}));
  EXPECT_EQ(taken.position.turn, dark);
  EXPECT_EQ(refused_by(offer_cube(taken, dark)), "cube-holder");
  EXPECT_EQ(refused_by(offer_cube(taken, light)), "cube-own-turn");
  EXPECT_EQ(must(throw_dice(taken, dark, {3, 1})).phase, Phase::to_play);

  const Table dropped = must(drop_cube(offered, light));
  EXPECT_EQ(dropped.phase, Phase::over);
  EXPECT_EQ(dropped.result, (GameResult{dark, WinKind::single, true, 1}));
}

TEST(CubeAtTheTable, NoAnswerWithoutAnOffer) {
  for (const Table& table : {new_game(), opened(), dark_to_roll()})
    for (const Side side : {light, dark}) {
      EXPECT_EQ(refused_by(take_cube(table, side)), "cube-take-or-drop");
      EXPECT_EQ(refused_by(drop_cube(table, side)), "cube-take-or-drop");
      EXPECT_EQ(refused_by(beaver(table, side)), "cube-take-or-drop");
    }
}

TEST(CubeAtTheTable, OffersRefused) {
  EXPECT_EQ(refused_by(offer_cube(opened(), light)), "cube-before-roll")
      << "nobody doubles before the first turn";
  EXPECT_EQ(refused_by(offer_cube(opened(), dark)), "cube-own-turn");
  HouseRules cubeless;
  cubeless.cube = false;
  EXPECT_EQ(refused_by(offer_cube(dark_to_roll(cubeless), dark)), "cube-in-use");
  Table crawford = dark_to_roll();
  crawford.position.match = MatchScore{5, {4, 2}, true};
  EXPECT_EQ(refused_by(offer_cube(crawford, dark)), "crawford");
  crawford.position.match->crawford = false;
  EXPECT_TRUE(offer_cube(crawford, dark).ok()) << "after the Crawford game";
}

TEST(CubeAtTheTable, Beavers) {
  const Table offered = must(offer_cube(dark_to_roll(with(&HouseRules::beavers)), dark));
  const Table beavered = must(beaver(offered, light));
  EXPECT_EQ(beavered.phase, Phase::beavered);
  for (const Side side : {light, dark}) {
    EXPECT_EQ(refused_by(throw_dice(beavered, side, {3, 1})), "cube-take-or-drop");
    EXPECT_EQ(refused_by(beaver(beavered, side)), "cube-take-or-drop");
  }
  EXPECT_EQ(refused_by(take_cube(beavered, light)), "cube-take-or-drop") << "dark answers";
  const Table accepted = must(take_cube(beavered, dark));
  EXPECT_EQ(accepted.phase, Phase::to_roll);
  EXPECT_EQ(accepted.position.turn, dark);
  EXPECT_EQ(accepted.position.cube, (Cube{4, light}));
  const Table dropped = must(drop_cube(beavered, dark));
  EXPECT_EQ(dropped.result, (GameResult{light, WinKind::single, true, 2}));
  EXPECT_EQ(must(take_cube(offered, light)).position.cube, (Cube{2, light}));
}

TEST(NextGame, KeepsTheScoreAndEndsTheMatch) {
  Table table = new_game({}, MatchScore{3, {0, 0}, false});
  table = must(throw_opening(table, 6, 4));
  table = must(lift_dice(must(move_checker(table, 24, 14)), light));
  table = must(drop_cube(must(offer_cube(table, dark)), light));
  EXPECT_EQ(table.result->points, 1U);
  Table next = must(next_game(table));
  Table expected = new_game({}, MatchScore{3, {0, 1}, false});
  EXPECT_EQ(next, expected);
  next = must(throw_opening(next, 6, 4));
  next = must(lift_dice(must(move_checker(next, 24, 14)), light));
  next = must(next_game(must(drop_cube(must(offer_cube(next, dark)), light))));
  EXPECT_EQ(next.position.match, (MatchScore{3, {0, 2}, true})) << "the Crawford game";
  Table last = next;
  last.phase = Phase::over;
  last.result = GameResult{dark, WinKind::gammon, false, 2};
  EXPECT_EQ(refused_by(next_game(last)), "match-length");
  last.position.match.reset();
  EXPECT_EQ(must(next_game(last)), new_game()) << "game by game there is always another";
}

}  // namespace
}  // namespace pointwright

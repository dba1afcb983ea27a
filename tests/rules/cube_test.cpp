// Who may offer the cube and when, and what the answers make of the position.

#include "rules/cube.hpp"

#include <gtest/gtest.h>

#include <string>

#include "rules/book/cube.hpp"
#include "rules/book/game.hpp"
#include "rules/book/match.hpp"

namespace pointwright {
namespace {

const std::string checkers = "light 24x2 13x5 8x3 6x5; dark 24x2 13x3 11x1 8x4 6x5";

Position position_of(const std::string& rest) {
  const auto position = read_position(checkers + rest);
  EXPECT_TRUE(position.ok()) << rest << ": " << (position.ok() ? "" : position.error()[0].reason);
  return position.ok() ? *position : Position{};
}

struct Refused {
  std::string rest;
  Side side;
  const Rule* rule;
  std::string proof;
};

TEST(Cube, EveryRefusalHasItsRuleAndItsProof) {
  const Refused cases[] = {
      {"; light to roll; house no-cube", Side::light, &book::cube_in_use,
       "This game is played without the cube (house rule no-cube)."},
      {"; light to roll; match to 5 score 2-4 crawford", Side::light, &book::crawford,
       "dark has 4 points and needs one more in a match to 5: this is the Crawford game, and "
       "nobody doubles in it."},
      {"; light to roll; cube 2 with dark", Side::light, &book::cube_holder,
       "dark took the cube at 2 and holds it, so only dark may offer it next."},
      {"; light to roll", Side::dark, &book::cube_own_turn,
       "light is to play, so dark waits for its own turn before it may double."},
      {"", Side::light, &book::cube_own_turn,
       "Nobody is to play in this position; the cube is offered by the side to play, before it "
       "rolls."},
      {"; light to play 6-4", Side::light, &book::cube_before_roll,
       "light has already rolled 6-4; the cube is offered before the dice are thrown."},
      {"; light to roll; cube 1152921504606846976 with light", Side::light, nullptr,
       "The game has no upper limit, but this program counts cubes up to 1152921504606846976, and "
       "the cube is at 1152921504606846976."},
  };
  for (const Refused& refused : cases) {
    const Position position = position_of(refused.rest);
    const CubeRuling ruling = may_offer(position, refused.side);
    EXPECT_FALSE(ruling.allowed) << refused.rest;
    EXPECT_EQ(ruling.rule, refused.rule) << refused.rest;
    EXPECT_EQ(ruling.proof, refused.proof);
    if (position.turn != refused.side) continue;
    ASSERT_FALSE(after_take(position).ok());
    EXPECT_EQ(after_take(position).error().proof, refused.proof);
    EXPECT_EQ(after_drop(position).error().rule, refused.rule);
    EXPECT_EQ(after_beaver(position).error().rule, refused.rule);
    EXPECT_EQ(after_beaver_drop(position).error().rule, refused.rule);
  }
}

TEST(Cube, NobodyOffersInAFinishedGameOrMatch) {
  const auto finished = read_position("light offx15; dark 13x2 8x3 6x10");
  ASSERT_TRUE(finished.ok());
  EXPECT_EQ(may_offer(*finished, Side::dark).rule, &book::win);
  EXPECT_EQ(after_take(*finished).error().rule, &book::win);
  Position over = position_of("; light to roll; match to 5 score 2-4");
  over.match->points[1] = 5;
  EXPECT_EQ(may_offer(over, Side::light).rule, &book::match_length);
}

TEST(Cube, NamesOfTheLessonAppearInProofs) {
  const SideNames names{{"Ivory", "Walnut"}};
  EXPECT_EQ(may_offer(position_of("; light to roll; cube 2 with dark"), Side::light, names).proof,
            "Walnut took the cube at 2 and holds it, so only Walnut may offer it next.");
  EXPECT_EQ(may_offer(position_of("; light to roll"), Side::light, names).proof,
            "Ivory is to play and has not rolled, and the cube is in the middle: it may be offered "
            "at 2.");
  EXPECT_EQ(may_offer(position_of("; dark to roll; cube 4 with dark"), Side::dark, names).proof,
            "Walnut is to play and has not rolled, and the cube is with Walnut: it may be offered "
            "at 8.");
}

// Every combination of turn, dice, holder, house rule, match and side, against the definition:
// offered only by the side to play before it rolls, only by the holder or from the middle, not in
// the Crawford game, not without a cube (common practice, every rule book).
TEST(Cube, AllowedExactlyWhereTheDefinitionSays) {
  int allowed = 0;
  int cases = 0;
  const std::optional<Side> sides[] = {std::nullopt, Side::light, Side::dark};
  for (const auto turn : sides)
    for (const bool rolled : {false, true})
      for (const auto holder : sides)
        for (const bool cube : {false, true})
          for (const int match : {0, 1, 2})
            for (const Side side : {Side::light, Side::dark}) {
              Position position;
              position.board = starting_board();
              position.turn = turn;
              if (turn && rolled) position.roll = Roll(3, 1);
              position.cube = {holder ? 2U : 1U, holder};
              position.house.cube = cube;
              if (match > 0) position.match = MatchScore{5, {4, 1}, match == 2};
              const bool expected =
                  cube && match != 2 && turn == side && !rolled && (!holder || holder == side);
              const CubeRuling ruling = may_offer(position, side);
              ASSERT_EQ(ruling.allowed, expected);
              ASSERT_EQ(ruling.rule == nullptr, expected);
              ASSERT_FALSE(ruling.proof.empty());
              if (turn == side) {
                ASSERT_EQ(after_take(position).ok(), expected);
                ASSERT_EQ(after_drop(position).ok(), expected);
              }
              allowed += expected;
              ++cases;
            }
  EXPECT_EQ(cases, 3 * 2 * 3 * 2 * 3 * 2);
  EXPECT_EQ(allowed, 2 * 2 * 2);
}

TEST(Cube, DoublesWithoutLimitUpToTheProgramsOwn) {
  Position position = position_of("; light to roll");
  int turns = 0;
  while (position.cube.value < largest_cube) {
    const auto dropped = after_drop(position);
    ASSERT_TRUE(dropped.ok());
    EXPECT_EQ(dropped->points, position.cube.value);
    EXPECT_EQ(dropped->winner, *position.turn);
    EXPECT_TRUE(dropped->dropped);
    const auto taken = after_take(position);
    ASSERT_TRUE(taken.ok());
    EXPECT_EQ(taken->cube.value, 2 * position.cube.value);
    EXPECT_EQ(taken->cube.holder, opponent(*position.turn));
    EXPECT_EQ(taken->turn, position.turn) << "the side that offered rolls";
    EXPECT_EQ(taken->roll, std::nullopt);
    EXPECT_FALSE(may_offer(*taken, *position.turn).allowed) << "the cube has changed hands";
    position = *taken;
    position.turn = position.cube.holder;
    ++turns;
  }
  EXPECT_EQ(turns, 60);
  EXPECT_EQ(may_offer(position, *position.turn).rule, nullptr);
}

TEST(Cube, BeaversOnlyWhereTheHouseRuleIsInForce) {
  const Position with = position_of("; light to roll; house beavers");
  const auto beavered = after_beaver(with);
  ASSERT_TRUE(beavered.ok());
  EXPECT_EQ(beavered->cube, (Cube{4, Side::dark}));
  EXPECT_EQ(beavered->turn, Side::light);
  const auto dropped = after_beaver_drop(with);
  ASSERT_TRUE(dropped.ok());
  EXPECT_EQ(*dropped, (GameResult{Side::dark, WinKind::single, true, 2}));

  const auto without = after_beaver(position_of("; light to roll"));
  EXPECT_EQ(without.error().rule, &book::cube_take_or_drop);
  EXPECT_EQ(without.error().proof, "The house rule beavers is off: the offer is taken or dropped.");
  const auto match =
      after_beaver(position_of("; light to roll; match to 7 score 0-0; house "
                               "beavers"));
  EXPECT_EQ(match.error().proof, "Beavers are not used in a match: the offer is taken or dropped.");
  Position high = with;
  high.cube.value = largest_cube / 2;
  EXPECT_TRUE(after_take(high).ok());
  ASSERT_FALSE(after_beaver(high).ok());
  EXPECT_EQ(after_beaver(high).error().rule, nullptr);
}

// A cube is dead for a side that already wins the match with a single game (common practice).
TEST(Cube, DeadInAMatchExactlyWhenASingleGameWinsIt) {
  for (int length = 1; length <= 25; ++length)
    for (int light = 0; light < length; ++light)
      for (int dark = 0; dark < length; ++dark)
        for (std::uint64_t value = 1; value <= 64; value *= 2) {
          Position position;
          position.board = starting_board();
          position.turn = Side::light;
          position.cube = {value, value > 1 ? std::optional(Side::light) : std::nullopt};
          position.match = MatchScore{length, {light, dark}, false};
          const bool dead = match_over(after_game(*position.match, Side::light, value));
          ASSERT_EQ(cube_is_dead_for(position, Side::light), dead);
          const CubeRuling ruling = may_offer(position, Side::light);
          ASSERT_TRUE(ruling.allowed);
          ASSERT_EQ(ruling.dead, dead);
          position.match.reset();
          ASSERT_FALSE(cube_is_dead_for(position, Side::light));
        }
  EXPECT_EQ(may_offer(position_of("; light to roll; cube 2 with light; match to 5 score 3-1"),
                      Side::light)
                .proof,
            "light is to play and has not rolled, and the cube is with light: it may be offered at "
            "4. It gains light nothing, since light needs 2 and a single game at 2 already wins "
            "the match: the cube is dead.");
}

// Every example of the rule book's chapter on the cube is a position in which the rule shows.
TEST(Cube, ExamplesOfTheRuleBook) {
  const auto refuses = [](const Rule& rule, Side side) {
    const auto position = read_position(rule.example);
    ASSERT_TRUE(position.ok()) << rule.id;
    EXPECT_EQ(may_offer(*position, side).rule, &rule) << rule.id;
  };
  refuses(book::cube_in_use, Side::light);
  refuses(book::cube_own_turn, Side::dark);
  refuses(book::cube_before_roll, Side::light);
  refuses(book::cube_holder, Side::light);
  refuses(book::crawford, Side::light);
  for (const Rule* rule :
       {&book::cube_start, &book::cube_take_or_drop, &book::cube_no_limit, &book::after_crawford}) {
    const auto position = read_position(rule->example);
    ASSERT_TRUE(position.ok()) << rule->id;
    ASSERT_TRUE(position->turn) << rule->id;
    EXPECT_TRUE(may_offer(*position, *position->turn).allowed) << rule->id;
  }
}

}  // namespace
}  // namespace pointwright

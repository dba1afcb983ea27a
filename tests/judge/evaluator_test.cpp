#include "judge/evaluator.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <vector>

#include "chance/race.hpp"
#include "judge/shipped.hpp"
#include "rules/notation.hpp"
#include "rules/position.hpp"
#include "tests/rules/random_positions.hpp"

namespace pointwright::judge {
namespace {

Board board(std::string_view line) {
  return read_position(line)->board;
}

TEST(Evaluator, KnowsHowAFinishedGameEnded) {
  const Evaluator& evaluator = shipped_evaluator();
  const auto lost = [&](std::string_view line) {
    const Evaluation value = evaluator.evaluate(board(line), Side::light);
    EXPECT_EQ(value.origin, Origin::game_over);
    return value.chances.equity();
  };
  EXPECT_EQ(lost("light 1x1; dark offx15"), -1);
  EXPECT_EQ(lost("light 6x15; dark offx15"), -2);
  EXPECT_EQ(lost("light 6x14 19x1; dark offx15"), -3);
  EXPECT_EQ(lost("light 6x14 barx1; dark offx15"), -3);
}

TEST(Evaluator, SaysWhereANumberComesFrom) {
  const Evaluator& evaluator = shipped_evaluator();
  EXPECT_EQ(evaluator.evaluate(starting_board(), Side::light).origin, Origin::contact_net);
  EXPECT_EQ(evaluator.evaluate(board("light 12x15; dark 12x15"), Side::light).origin,
            Origin::race_net);
  EXPECT_EQ(evaluator.evaluate(board("light 6x2; dark 6x2"), Side::light).origin,
            Origin::exact_table);
  EXPECT_EQ(evaluator.evaluate(board("light 6x8; dark 6x2"), Side::light).origin, Origin::table);
}

TEST(Evaluator, AgreesWithTheExactTablesInSmallRaces) {
  const Evaluator& evaluator = shipped_evaluator();
  std::mt19937_64 random(3);
  for (int i = 0; i < 300; ++i) {
    Board race;
    for (const Side side : {Side::light, Side::dark}) {
      const int checkers = 1 + static_cast<int>(random() % 6);
      race.of(side)[off_place] = static_cast<std::uint8_t>(checkers_per_side - checkers);
      for (int k = 0; k < checkers; ++k) ++race.of(side)[1 + random() % 6];
    }
    const auto exact = race_answer(race, Side::light);
    ASSERT_TRUE(exact);
    ASSERT_NEAR(static_cast<double>(evaluator.evaluate(race, Side::light).chances.win), exact->win,
                convolution_error)
        << to_text(race);
  }
}

// Source: Kit Woolsey, "What are the best ways to play the opening rolls?", 19 March 1995, in the
// Backgammon FAQ (M. Damish): the settled ones.
TEST(Evaluator, PlaysTheSettledOpenings) {
  const struct {
    Roll roll;
    const char* play;
  } settled[] = {{Roll(3, 1), "8/5 6/5"},
                 {Roll(4, 2), "8/4 6/4"},
                 {Roll(6, 1), "13/7 8/7"},
                 {Roll(5, 3), "8/3 6/3"},
                 {Roll(6, 5), "24/13"}};
  for (const auto& opening : settled) {
    const auto plays = legal_plays(starting_board(), Side::light, opening.roll);
    EXPECT_EQ(to_text(plays[shipped_evaluator().best_play(plays, Side::light)].play), opening.play);
  }
}

// Common practice: about a quarter of games played out end in a gammon or more, and having the
// first roll is a small advantage.
TEST(Evaluator, FindsTheStartingPositionNearlyLevel) {
  const Chances start = shipped_evaluator().evaluate(starting_board(), Side::light).chances;
  EXPECT_NEAR(start.win, 0.525, 0.015);
  EXPECT_NEAR(start.win_gammon + start.lose_gammon, 0.26, 0.04);
}

// Whatever the plays lead to: contact, races, tables, the end of the game; hits and none.
TEST(Evaluator, ValuesPlaysTogetherAsOneByOne) {
  const Evaluator& evaluator = shipped_evaluator();
  std::mt19937_64 random(5);
  NetScratch scratch;
  std::array<int, 5> met{};
  std::size_t positions = 0;
  for (int i = 0; i < 2000; ++i) {
    const Board any = pointwright::testing::random_board(random);
    const Roll roll(1 + static_cast<int>(random() % 6), 1 + static_cast<int>(random() % 6));
    const auto plays = legal_plays(any, Side::light, roll);
    std::vector<Evaluation> values(plays.size());
    evaluator.evaluate(plays, Side::dark, scratch, values.data());
    for (std::size_t k = 0; k < plays.size(); ++k) {
      const Evaluation alone = evaluator.evaluate(plays[k].after, Side::dark);
      ASSERT_EQ(values[k].chances, alone.chances) << to_text(plays[k].after);
      ASSERT_EQ(values[k].origin, alone.origin);
      ++met.at(static_cast<std::size_t>(alone.origin));
    }
    positions += plays.size();
  }
  EXPECT_GT(positions, 20'000U);
  for (const int times : met) EXPECT_GT(times, 10);
}

TEST(Evaluator, DoesNotCareWhichSideIsCalledLight) {
  std::mt19937_64 random(4);
  for (int i = 0; i < 500; ++i) {
    const Board any = pointwright::testing::random_board(random);
    ASSERT_EQ(shipped_evaluator().evaluate(any, Side::light).chances.equity(),
              shipped_evaluator().evaluate(swapped(any), Side::dark).chances.equity());
  }
}

}  // namespace
}  // namespace pointwright::judge

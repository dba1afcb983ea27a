#include "chance/match_table.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "chance/cube_sums.hpp"
#include "chance/match_cube.hpp"

namespace pointwright::chance {
namespace {

// Source: Kit Woolsey, How to Play Tournament Backgammon, 1993 (an empirical table, per cent, row
// against column, Crawford game where either needs one).
const char* const published =
    "50,70,75,83,85,90,91,94,95,97,97,98,98,99,99\n"
    "30,50,60,68,75,81,85,88,91,93,94,95,96,97,98\n"
    "25,40,50,59,66,71,76,80,84,87,90,92,94,95,96\n"
    "17,32,41,50,58,64,70,75,79,83,86,88,90,92,93\n"
    "15,25,34,42,50,57,63,68,73,77,81,84,87,89,90\n"
    "10,19,29,36,43,50,56,62,67,72,76,79,82,85,87\n"
    "9,15,24,30,37,44,50,56,61,66,70,74,78,81,84\n"
    "6,12,20,25,32,38,44,50,55,60,65,69,73,77,80\n"
    "5,9,16,21,27,33,39,45,50,55,60,64,68,72,76\n"
    "3,7,13,17,23,28,34,40,45,50,55,60,64,68,71\n"
    "3,6,10,14,19,24,30,35,40,45,50,55,59,63,67\n"
    "2,5,8,12,16,21,26,31,36,40,45,50,54,58,62\n"
    "2,4,6,10,13,18,22,27,32,36,41,46,50,54,58\n"
    "1,3,5,8,11,15,19,23,28,32,37,42,46,50,54\n"
    "1,2,4,7,10,13,16,20,24,29,33,38,42,46,50\n";

TEST(MatchTable, ComesCloseToThePublishedOne) {
  const auto outside = MatchTable::read_csv(published);
  ASSERT_TRUE(outside) << outside.error().front().reason;
  double sum = 0;
  double largest = 0;
  for (int mine = 1; mine <= 15; ++mine) {
    for (int theirs = 1; theirs <= 15; ++theirs) {
      const double difference =
          100 * (standard_match_table().chance(mine, theirs) - outside->chance(mine, theirs));
      sum += std::abs(difference);
      largest = std::max(largest, std::abs(difference));
      EXPECT_LT(std::abs(difference), 2.0) << mine << " against " << theirs;
    }
  }
  RecordProperty("mean_difference", std::to_string(sum / 225));
  RecordProperty("largest_difference", std::to_string(largest));
  EXPECT_LT(sum / 225, 0.5);
}

TEST(MatchTable, IsFairAndRises) {
  const MatchTable& table = standard_match_table();
  EXPECT_EQ(table.size(), 25);
  for (int a = 1; a <= 25; ++a) {
    EXPECT_EQ(table.chance(a, a), 0.5);
    for (int b = 1; b <= 25; ++b) {
      EXPECT_NEAR(table.chance(a, b) + table.chance(b, a), 1.0, 1e-12);
      EXPECT_GT(table.chance(a, b), 0.0);
      if (a < 25) EXPECT_GE(table.chance(a, b), table.chance(a + 1, b)) << a << " " << b;
    }
  }
}

TEST(MatchTable, NearTheEndIsPlainArithmetic) {
  MatchModel model;
  model.gammons = 0.2;
  model.backgammons = 0;
  const MatchTable table = MatchTable::computed(model, 5);
  // Crawford game, two needed: a gammon wins at once, a single game leaves one level game.
  EXPECT_NEAR(table.chance(2, 1), 0.5 * (0.2 + 0.8 * 0.5), 1e-12);
  // Three needed: a gammon leaves one level game, a single game leaves two points to win at once
  // with the cube on two.
  EXPECT_NEAR(table.chance(3, 1), 0.5 * (0.2 * 0.5 + 0.8 * 0.5), 1e-12);
  EXPECT_NEAR(table.after_crawford(1), 0.5, 1e-12);
  EXPECT_NEAR(table.after_crawford(2), 0.5, 1e-12);
  EXPECT_NEAR(table.after_crawford(3), 0.5 * (0.2 + 0.8 * 0.5), 1e-12);
}

TEST(MatchTable, GoesThroughCsvUnchanged) {
  const MatchTable& table = standard_match_table();
  const auto again = MatchTable::read_csv(table.to_csv());
  ASSERT_TRUE(again);
  for (int a = 1; a <= 25; ++a) {
    EXPECT_NEAR(again->after_crawford(a), table.after_crawford(a), 1e-6);
    for (int b = 1; b <= 25; ++b) EXPECT_NEAR(again->chance(a, b), table.chance(a, b), 1e-6);
  }
}

TEST(MatchTable, RefusesBadCsv) {
  const struct {
    const char *csv, *id;
  } cases[] = {{"", "match-table-size"},
               {"50,x\n50,50\n", "match-table-number"},
               {"50,101\n50,50\n", "match-table-number"},
               {"50,70\n30\n", "match-table-row"},
               {"50,70\n40,50\n", "match-table-sum"},
               {"50\nafter-crawford,50,50\n", "match-table-row"}};
  for (const auto& bad : cases) {
    const auto table = MatchTable::read_csv(bad.csv);
    ASSERT_FALSE(table) << bad.csv;
    EXPECT_EQ(table.error().front().id, bad.id);
    EXPECT_FALSE(table.error().front().fix.empty());
  }
}

TEST(Needs, KnowWhichGameIsBeingPlayed) {
  EXPECT_FALSE(needs({7, {3, 5}, false}, Side::light).after_crawford);
  EXPECT_FALSE(needs({7, {6, 5}, true}, Side::light).after_crawford);
  EXPECT_TRUE(needs({7, {6, 5}, false}, Side::light).after_crawford);
  EXPECT_EQ(needs({7, {3, 5}, false}, Side::dark).mine, 2);
}

TEST(ChanceAfter, LeadsIntoAndOutOfTheCrawfordGame) {
  const MatchTable& table = standard_match_table();
  // 5-3 to 7: light wins one and needs one: the Crawford game follows.
  EXPECT_EQ(chance_after(table, {2, 4, false}, 1, 0), table.chance(1, 4));
  // The Crawford game itself: dark needs 4 and wins one; the cube is back after it.
  EXPECT_EQ(chance_after(table, {1, 4, false}, 0, 1), 1 - table.after_crawford(3));
  EXPECT_EQ(chance_after(table, {3, 1, true}, 2, 0), table.after_crawford(1));
  EXPECT_EQ(chance_after(table, {3, 1, true}, 3, 0), 1.0);
  EXPECT_EQ(chance_after(table, {3, 1, true}, 0, 1), 0.0);
}

TEST(ScoreDecision, IsTheQuarterWhenTheScoreHardlyMatters) {
  // Far from the end of a match the sum is that of a game for points: risk 1 to gain 3.
  const ScoreDecision decision = decide_at_score(standard_match_table(), {25, 25, false}, 1);
  EXPECT_NEAR(decision.dead_take_point, 0.25, 0.01);
  EXPECT_NEAR(decision.live_take_point, 0.20, 0.015);
  EXPECT_NEAR(decision.double_point, 0.50, 0.01);
  EXPECT_NEAR(decision.gammon_value, 0.50, 0.02);
  EXPECT_FALSE(decision.cube_is_dead);
}

TEST(ScoreDecision, BothNeedingTwoPlaysForTheMatch) {
  // Whoever wins the doubled game wins the match; dropping leaves the Crawford game, one against
  // two. Gammons add nothing any more.
  const MatchTable& table = standard_match_table();
  const ScoreDecision decision = decide_at_score(table, {2, 2, false}, 1);
  EXPECT_DOUBLE_EQ(decision.dead_take_point, table.chance(2, 1));
  EXPECT_DOUBLE_EQ(decision.live_take_point, decision.dead_take_point);
  EXPECT_DOUBLE_EQ(decision.gammon_value, 0.0);
  EXPECT_TRUE(decision.cube_is_dead);
  EXPECT_EQ(take_point_sum(decision, {2, 2, false}, SideNames{}, Side::dark),
            "dark drops: the score is 2 needed against 1, 30.3%. Takes and wins: the match is won, "
            "100.0%. Takes and loses: the match is lost, 0.0%. The take risks 30.3% to gain 69.7%: "
            "it needs 30.3% / (30.3% + 69.7%) = 30.3% of the games; the cube is then dead for "
            "dark.");
}

TEST(ScoreDecision, FreeDropAfterTheCrawfordGame) {
  // The side behind needs two and doubles; the leader may drop for almost nothing: the side behind
  // then needs one instead of two, both a level game away.
  const ScoreDecision decision = decide_at_score(standard_match_table(), {1, 2, true}, 1);
  EXPECT_NEAR(decision.dead_take_point, 0.5, 1e-12);
}

}  // namespace
}  // namespace pointwright::chance

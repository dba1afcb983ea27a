#include "chance/cube_sums.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace pointwright::chance {
namespace {

TEST(GammonRates, AreReadAsTheyArePrinted) {
  const auto rates = read_gammon_rates("25-10");
  ASSERT_TRUE(rates);
  EXPECT_DOUBLE_EQ(rates->share[0], 0.25);
  EXPECT_DOUBLE_EQ(rates->share[1], 0.10);
  EXPECT_EQ(to_text(*rates), "25-10");
  EXPECT_DOUBLE_EQ(rates->seen_by(Side::dark).mine, 0.10);
  EXPECT_DOUBLE_EQ(rates->seen_by(Side::dark).theirs, 0.25);
  EXPECT_EQ(to_text(*read_gammon_rates("12.5%-0")), "12.5-0");
  EXPECT_EQ(to_text(*read_gammon_rates("100-100.0")), "100-100");
  for (const char* const bad : {"", "25", "25-", "-10", "25-101", "100.1-0", "25-10-5", "a-b",
                                "2.55-1", "2.-1", ".5-1", "25 - 10", "1e1-5"}) {
    EXPECT_FALSE(read_gammon_rates(bad)) << bad;
  }
}

/// What a side that needs `mine` against `theirs` wins the match with, before the Crawford game,
/// straight from the table. Not for scores at which somebody needs one point already.
double after(int mine, int theirs) {
  if (mine <= 0) return 1;
  if (theirs <= 0) return 0;
  return standard_match_table().chance(mine, theirs);
}

// At the take point dropping and taking are worth the same, at the doubling point holding and
// doubling: reckoned here from the table alone, gammon by gammon.
TEST(ScoreDecision, IsIndifferentAtItsPointsWithGammons) {
  const GammonShares shares{.mine = 0.15, .my_backgammons = 0.02, .theirs = 0.3};
  for (const int mine : {2, 3, 5, 8}) {
    for (const int theirs : {2, 4, 7}) {
      for (const int cube : {1, 2}) {
        const auto win = [&](int points) {
          return 0.83 * after(mine - points, theirs) + 0.15 * after(mine - 2 * points, theirs) +
                 0.02 * after(mine - 3 * points, theirs);
        };
        const auto loss = [&](int points) {
          return 0.7 * after(mine, theirs - points) + 0.3 * after(mine, theirs - 2 * points);
        };
        const ScoreDecision decision =
            decide_at_score(standard_match_table(), {mine, theirs, false},
                            static_cast<std::uint64_t>(cube), shares);
        const double take = decision.dead_take_point;
        const double drop = after(mine, theirs - cube);
        if (take > 0 && take < 1) {
          EXPECT_NEAR(take * win(2 * cube) + (1 - take) * loss(2 * cube), drop, 1e-12);
        }
        const double twice = 1 - decision.double_point;  // the taker's chance there
        if (win(2 * cube) - win(cube) + loss(cube) - loss(2 * cube) > 1e-12) {
          EXPECT_NEAR(twice * win(cube) + (1 - twice) * loss(cube),
                      twice * win(2 * cube) + (1 - twice) * loss(2 * cube), 1e-12)
              << mine << " against " << theirs << " at " << cube;
        }
      }
    }
  }
}

TEST(ScoreDecision, GammonsAgainstTheTakerRaiseItsTakePoint) {
  const Needs needs{5, 5, false};
  const auto point = [&](const GammonShares& shares) {
    return decide_at_score(standard_match_table(), needs, 1, shares).dead_take_point;
  };
  EXPECT_GT(point({.theirs = 0.2}), point({}));
  EXPECT_LT(point({.mine = 0.2}), point({}));
  // The taker needs two: the doubled game decides the match, whatever a gammon would count.
  const auto last = [&](const GammonShares& shares) {
    return decide_at_score(standard_match_table(), {2, 2, false}, 1, shares).dead_take_point;
  };
  EXPECT_DOUBLE_EQ(last({.mine = 0.2, .theirs = 0.4}), last({}));
}

TEST(MoneyDecision, IsIndifferentAtItsPointsWithGammons) {
  for (const double theirs : {0.0, 0.2, 0.5}) {
    for (const double mine : {0.0, 0.1, 0.4}) {
      const double win = 1 + mine;
      const double loss = 1 + theirs;
      const MoneyDecision decision = decide_for_money({.mine = mine, .theirs = theirs});
      const double take = decision.dead_take_point;
      EXPECT_NEAR(2 * (take * win - (1 - take) * loss), -1, 1e-12);
      const double offer = decision.dead_double_point;
      const double held = offer * loss - (1 - offer) * win;
      EXPECT_NEAR(2 * held, held, 1e-9);
      // Under the Jacoby rule the cube in the middle keeps gammons from counting.
      const double jacoby =
          decide_for_money({.mine = mine, .theirs = theirs}, true).dead_double_point;
      EXPECT_NEAR(2 * (jacoby * loss - (1 - jacoby) * win), 2 * jacoby - 1, 1e-9);
    }
  }
}

TEST(MoneyCube, IsTooGoodFromWherePlayingOnIsWorthTheDrop) {
  EXPECT_FALSE(too_good_point({1, 1}, 0.68));
  EXPECT_FALSE(too_good_point({1.5, 1.1}, 0.68, true));
  for (const double life : {0.0, 0.5, 0.68, 1.0}) {
    const GameValues values{1.5, 1.1};
    const auto point = too_good_point(values, life);
    ASSERT_TRUE(point) << life;
    EXPECT_NEAR(cubeful_equity(*point, values, CubePlace::centred, life), 1, 1e-9) << life;
    EXPECT_GE(*point, cash_point(values, life) - 1e-9);
  }
  // Dead: p W - (1 - p) L = 1.
  EXPECT_NEAR(*too_good_point({1.5, 1.1}, 0), (1 + 1.1) / (1.5 + 1.1), 1e-9);
}

TEST(CubeSums, WriteGammonsOut) {
  const MatchTable table = *MatchTable::read_csv(
      "50,70,75,83\n"
      "30,50,60,68\n"
      "25,40,50,59\n"
      "17,32,41,50\n"
      "after-crawford,50,50,30,30\n");
  const Needs dark{2, 4, false};
  const ScoreDecision decision = decide_at_score(table, dark, 1, {.theirs = 0.25});
  EXPECT_EQ(take_point_sum(decision, dark, SideNames{}, Side::dark),
            "dark drops: the score is 2 needed against 3, 60.0%. Takes and wins: the match is won, "
            "100.0%. Takes and loses: the score is 2 needed against 2, 50.0%; with a gammon, in "
            "25% of these games, the match is lost, 0.0%; on average 37.5%. The take risks 22.5% "
            "to gain 40.0%: it needs 22.5% / (22.5% + 40.0%) = 36.0% of the games; the cube is "
            "then dead for dark.");
  // Light wins 40 and, with a gammon, 50; loses 30. Doubled it wins 50 or 100, and loses all.
  EXPECT_EQ(double_point_sum(decision, SideNames{}, Side::dark),
            "light wins the game at 1: 42.5% of the matches on average; loses it: 17.0%. Wins at "
            "2: 62.5%; loses: 0.0%. The double risks 17.0% to gain 20.0%: if nobody turns the cube "
            "again, it gains from 17.0% / (17.0% + 20.0%) = 45.9% of the games on.");
  EXPECT_EQ(gammon_value_sum(game_ends(table, {4, 2, false}, 1), 1, SideNames{}, Side::light),
            "With the cube at 1, a single win takes light to 40.0%, a gammon to 50.0% and a single "
            "loss to 17.0%: a gammon adds 10.0% to a swing of 23.0%, 10.0% / 23.0% = 0.43.");
}

TEST(CubeSums, WriteAGameForPointsOut) {
  const MoneyDecision decision = decide_for_money({.mine = 0.1, .theirs = 0.25}, true);
  EXPECT_EQ(take_point_sum(decision, SideNames{}, Side::dark),
            "dark drops and loses 1. Takes and wins 2 x 1.10 = 2.20; takes and loses 2 x 1.25 = "
            "2.50. The take risks 1.50 to gain 3.20: it needs 1.50 / (1.50 + 3.20) = 31.9% of the "
            "games, or 26.3% if dark can use the cube to the full.");
  EXPECT_EQ(double_point_sum(decision, SideNames{}, Side::dark),
            "light wins 1.00 and loses 1.00 while gammons do not count (the Jacoby rule); after "
            "the double it wins 2 x 1.25 = 2.50 and loses 2 x 1.10 = 2.20. The double risks 1.20 "
            "to gain 1.50: if nobody turns the cube again, it gains from 1.20 / (1.20 + 1.50) = "
            "44.4% of the games on.");
}

}  // namespace
}  // namespace pointwright::chance

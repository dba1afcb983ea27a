#include "chance/money_cube.hpp"

#include <gtest/gtest.h>

namespace pointwright::chance {
namespace {

TEST(MoneyCube, DeadCubeIsRiskAndGain) {
  // Dropping costs 1; taking costs 2 L or gains 2 W. Common practice: 25% without gammons.
  EXPECT_DOUBLE_EQ(take_point({1, 1}, 0), 0.25);
  for (const double win : {1.0, 1.2, 1.5}) {
    for (const double loss : {1.0, 1.3, 1.6}) {
      const double p = take_point({win, loss}, 0);
      EXPECT_NEAR(2 * (p * win - (1 - p) * loss), -1, 1e-12);
    }
  }
  EXPECT_NEAR(doubling_point({1, 1}, 0), 0.5, 1e-12);
  EXPECT_NEAR(redoubling_point({1, 1}, 0), 0.5, 1e-12);
}

// Source: Keeler and Spencer, Operations Research 23(6), 1975: double at 80%, drop below 20%.
TEST(MoneyCube, LiveCubeTurnsAtEighty) {
  EXPECT_DOUBLE_EQ(take_point({1, 1}, 1), 0.2);
  EXPECT_DOUBLE_EQ(cash_point({1, 1}, 1), 0.8);
  EXPECT_NEAR(doubling_point({1, 1}, 1), 0.8, 1e-9);
  EXPECT_NEAR(redoubling_point({1, 1}, 1), 0.8, 1e-9);
}

TEST(MoneyCube, TakingAndDroppingAreEqualAtTheTakePoint) {
  for (const double life : {0.0, 0.3, 0.68, 1.0}) {
    for (const double win : {1.0, 1.25}) {
      const GameValues mine{win, 1.1};
      // I take at cube 2: twice the equity of holding the cube, against -1 for dropping.
      EXPECT_NEAR(2 * cubeful_equity(take_point(mine, life), mine, CubePlace::mine, life), -1, 1e-9)
          << life;
      // My cash point is the other side's take point seen from here.
      const GameValues theirs{mine.loss, mine.win};
      EXPECT_NEAR(cash_point(mine, life), 1 - take_point(theirs, life), 1e-12);
    }
  }
}

TEST(MoneyCube, OwningTheCubeIsWorthSomething) {
  for (double p = 0.05; p < 1; p += 0.05) {
    const GameValues values{1.2, 1.2};
    const double mine = cubeful_equity(p, values, CubePlace::mine, 0.68);
    const double centred = cubeful_equity(p, values, CubePlace::centred, 0.68);
    const double theirs = cubeful_equity(p, values, CubePlace::theirs, 0.68);
    EXPECT_GE(mine, theirs - 1e-12) << p;
    EXPECT_NEAR(cubeful_equity(p, values, CubePlace::mine, 0.68),
                -cubeful_equity(1 - p, values, CubePlace::theirs, 0.68), 1e-12);
    EXPECT_NEAR(centred, -cubeful_equity(1 - p, values, CubePlace::centred, 0.68), 1e-12);
  }
  EXPECT_NEAR(cubeful_equity(0.5, {1.3, 1.3}, CubePlace::centred, 0.68), 0.0, 1e-12);
}

TEST(MoneyCube, JacobyRuleMakesDoublingEarlier) {
  const GameValues gammonish{1.5, 1.1};
  EXPECT_LT(doubling_point(gammonish, 0.68, true), doubling_point(gammonish, 0.68, false));
}

}  // namespace
}  // namespace pointwright::chance

#include "chance/bearoff.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "exact_races.hpp"

namespace pointwright {
namespace {

using testing::after_rolls;
using testing::ExactRaces;
using testing::home_camps;

/// A side with checkers on points 1 to 6, as listed.
Camp home(std::array<int, 6> counts) {
  Camp camp{};
  int off = checkers_per_side;
  for (std::size_t i = 0; i < 6; ++i) {
    camp[i + 1] = static_cast<std::uint8_t>(counts[i]);
    off -= counts[i];
  }
  camp[off_place] = static_cast<std::uint8_t>(off);
  return camp;
}

double mean(const Camp& camp) {
  return home_table().mean(home_table().family().rank(camp));
}

double wastage(std::array<int, 6> counts) {
  int pips = 0;
  for (int i = 0; i < 6; ++i) pips += (i + 1) * counts[static_cast<std::size_t>(i)];
  return mean(home(counts)) * mean_roll_pips - pips;
}

TEST(BearoffFamily, CountsAndNumbersEveryPosition) {
  // 54,264 = C(21,6): exact count.
  const BearoffFamily family(6, 15);
  ASSERT_EQ(family.size(), 54264U);
  for (std::uint32_t rank = 0; rank < family.size(); ++rank) {
    const Camp camp = family.camp(rank);
    ASSERT_TRUE(family.contains(camp));
    ASSERT_EQ(family.rank(camp), rank);
  }
}

TEST(BearoffFamily, RefusesCheckersOutside) {
  const BearoffFamily family(6, 4);
  Camp camp{};
  camp[7] = 1;
  EXPECT_FALSE(family.contains(camp));
  camp[7] = 0;
  camp[bar_place] = 1;
  EXPECT_FALSE(family.contains(camp));
  camp[bar_place] = 0;
  camp[6] = 5;
  EXPECT_FALSE(family.contains(camp));
  camp[6] = 4;
  EXPECT_TRUE(family.contains(camp));
}

TEST(HomeTable, MeanOfZeroToFive) {
  // Kit Woolsey, "The Ultimate Pip Count", Inside Backgammon, May/June 1993: 9.47 rolls.
  EXPECT_NEAR(mean(home({0, 1, 2, 3, 4, 5})), 9.47, 0.005);
}

TEST(HomeTable, PublishedWastage) {
  // "15 positions that minimize waste of pips in bear-off", rec.games.backgammon, April 1996.
  EXPECT_NEAR(wastage({1, 0, 0, 0, 0, 0}), 7.17, 0.005);
  EXPECT_NEAR(wastage({0, 0, 0, 0, 1, 0}), 4.30, 0.005);
  EXPECT_NEAR(wastage({0, 0, 0, 0, 0, 1}), 4.21, 0.005);
  EXPECT_NEAR(wastage({2, 0, 0, 0, 0, 0}), 6.17, 0.005);
}

TEST(HomeTable, LeastWastefulFifteen) {
  // The same discussion: 3, 5, 7 on the 4-, 5-, 6-points wastes least of all with fifteen.
  const OneSidedTable<double>& table = home_table();
  double least = 1e9;
  Camp best{};
  for (std::uint32_t rank = 0; rank < table.family().size(); ++rank) {
    const Camp camp = table.family().camp(rank);
    if (camp[off_place] != 0) continue;
    int pips = 0;
    for (std::size_t point = 1; point <= 6; ++point) pips += static_cast<int>(point) * camp[point];
    const double waste = table.mean(rank) * mean_roll_pips - pips;
    if (waste < least) {
      least = waste;
      best = camp;
    }
  }
  EXPECT_EQ(best, home({0, 0, 0, 3, 5, 7}));
}

TEST(HomeTable, StacksOnTheOnePointCountSevenAndOne) {
  // A k-roll stack has an effective count of about 7k + 1 (Walter Trice, Backgammon Boot Camp;
  // from memory, so "about" is given a whole pip).
  for (int rolls = 2; rolls <= 7; ++rolls) {
    EXPECT_NEAR(mean(home({2 * rolls, 0, 0, 0, 0, 0})) * mean_roll_pips, 7 * rolls + 1, 1.0);
  }
}

/// The chance that a double ends the bear-off of `checkers` stacked on the 1-point, from the
/// table's chances: the game ends on a roll k with so many left before it.
TEST(HomeTable, LastThrowIsADouble) {
  // IBM Research, Ponder This, published solution: one side alone with 2n-1 or 2n checkers:
  // (2 + 5(-1/6)^n) / 7. Fifteen a side in turn: about 0.3417.
  // Here a double takes four checkers and any other roll two, so with c left the chance D(c) that
  // the last throw is a double is 1/6 [c <= 4 or D(c-4)] + 5/6 [0 if c <= 2 or D(c-2)].
  std::array<double, 16> last_double{};
  for (std::size_t c = 1; c <= 15; ++c) {
    last_double[c] =
        (c <= 4 ? 1.0 : last_double[c - 4]) / 6 + (c <= 2 ? 0.0 : last_double[c - 2]) * 5 / 6;
    const auto n = static_cast<double>((c + 1) / 2);
    EXPECT_NEAR(last_double[c], (2 + 5 * std::pow(-1.0 / 6, n)) / 7, 1e-12);
  }
  // Two sides: the table says when each is off; a side that is off at roll k has ended the game by
  // a double with the chance that its last throw was one, given k.
  // joint[k] = P(off at roll k, last throw double) for fifteen checkers.
  std::array<double, 9> off_at{};
  std::array<double, 9> by_double{};
  const auto run = [&](auto&& self, int left, std::size_t rolls, double chance) -> void {
    for (const auto& [taken, weight] : {std::pair{4, 1.0 / 6}, std::pair{2, 5.0 / 6}}) {
      if (left > taken) {
        self(self, left - taken, rolls + 1, chance * weight);
      } else {
        off_at[rolls + 1] += chance * weight;
        if (taken == 4) by_double[rolls + 1] += chance * weight;
      }
    }
  };
  run(run, 15, 0, 1.0);
  const auto spread = home_table().spread(home_table().family().rank(home({15, 0, 0, 0, 0, 0})));
  double ends_by_double = 0;
  double not_off_yet = 1;
  for (std::size_t k = 1; k <= 8; ++k) {
    EXPECT_NEAR(spread.exactly(static_cast<int>(k)), off_at[k], 1e-12);
    ends_by_double += by_double[k] * not_off_yet;
    not_off_yet -= off_at[k];
    ends_by_double += by_double[k] * not_off_yet;
  }
  EXPECT_NEAR(ends_by_double, 0.3417, 0.00005);
}

TEST(HomeTable, AgreesWithExactFractionsUpToFourCheckers) {
  ExactRaces exact;
  int positions = 0;
  for (const Camp& camp : home_camps(4)) {
    ASSERT_NEAR(mean(camp), exact.mean(camp).value(), 1e-13);
    ++positions;
  }
  EXPECT_EQ(positions, 209);  // C(10,4) - 1
}

TEST(HomeTable, SpreadsAreProbabilitiesWithTheMean) {
  const OneSidedTable<double>& table = home_table();
  for (std::uint32_t rank = 0; rank < table.family().size(); rank += 7) {
    const auto spread = table.spread(rank);
    double sum = 0;
    double first_moment = 0;
    for (int rolls = spread.first; rolls <= spread.last(); ++rolls) {
      ASSERT_GE(spread.exactly(rolls), 0.0);
      sum += spread.exactly(rolls);
      first_moment += rolls * spread.exactly(rolls);
    }
    ASSERT_NEAR(sum, 1.0, 1e-12);
    ASSERT_NEAR(first_moment, table.mean(rank), 1e-10);
    ASSERT_GE(table.variance(rank), -1e-12);
  }
}

TEST(HomeTable, PlaysByTheRules) {
  // Every position has the mean that the plays listed by the rules room give it: one play from it
  // in the rules room's eyes, then the table. Random positions of up to fifteen checkers.
  const OneSidedTable<double>& table = home_table();
  std::mt19937 random(20260101);
  for (int trial = 0; trial < 60; ++trial) {
    const std::uint32_t rank = 1 + random() % (table.family().size() - 1);
    const auto after = after_rolls(table.family().camp(rank));
    double sum = 0;
    for (std::size_t i = 0; i < 21; ++i) {
      double best = 1e9;
      for (const Camp& camp : after[i]) best = std::min(best, mean(camp));
      EXPECT_NEAR(table.mean(table.best_after(rank, all_rolls()[i])), best, 1e-12);
      sum += all_rolls()[i].ways() * best;
    }
    ASSERT_NEAR(table.mean(rank), 1 + sum / 36, 1e-12);
  }
}

TEST(OutfieldFamilies, AgreeWithTheHomeTableAndTheRules) {
  const OneSidedTable<float> table(12, 3);
  for (std::uint32_t rank = 1; rank < table.family().size(); ++rank) {
    const Camp camp = table.family().camp(rank);
    if (home_table().family().contains(camp)) {
      ASSERT_NEAR(table.mean(rank), mean(camp), 1e-12);
      continue;
    }
    const auto after = after_rolls(camp);
    double sum = 0;
    for (std::size_t i = 0; i < 21; ++i) {
      double best = 1e9;
      for (const Camp& next : after[i])
        best = std::min(best, table.mean(table.family().rank(next)));
      sum += all_rolls()[i].ways() * best;
    }
    ASSERT_NEAR(table.mean(rank), 1 + sum / 36, 1e-12);
  }
}

TEST(WithinTable, BeatsPlayingForTheMeanAndAgreesWithTheRules) {
  const WithinTable within(6, 6, 6);
  int improved = 0;
  for (std::uint32_t rank = 1; rank < within.family().size(); ++rank) {
    const Camp camp = within.family().camp(rank);
    const auto spread = home_table().spread(home_table().family().rank(camp));
    double by_mean = 0;
    for (int rolls = 0; rolls <= 6; ++rolls) {
      by_mean += spread.exactly(rolls);
      ASSERT_GE(within.chance(rank, rolls), by_mean - 1e-12);
      if (within.chance(rank, rolls) > by_mean + 1e-9) ++improved;
    }
    if (rank % 20 != 0) continue;
    const auto after = after_rolls(camp);
    for (int rolls = 1; rolls <= 6; ++rolls) {
      double sum = 0;
      for (std::size_t i = 0; i < 21; ++i) {
        double best = 0;
        for (const Camp& next : after[i]) {
          best = std::max(best, within.chance(within.family().rank(next), rolls - 1));
        }
        sum += all_rolls()[i].ways() * best;
      }
      ASSERT_NEAR(within.chance(rank, rolls), sum / 36, 1e-12);
    }
  }
  EXPECT_GT(improved, 0);  // playing for a number of rolls is not the same as for the mean
}

TEST(OneSidedTable, StopsWhenTheHostSaysSo) {
  BuildHost host;
  host.progress = [](double) { return false; };
  EXPECT_FALSE(OneSidedTable<float>(8, 15, host).complete());
}

}  // namespace
}  // namespace pointwright

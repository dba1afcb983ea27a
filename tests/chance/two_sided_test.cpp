#include "chance/two_sided.hpp"

#include <gtest/gtest.h>

#include <initializer_list>

#include "exact_races.hpp"

namespace pointwright {
namespace {

using testing::ExactRaces;
using testing::home_camps;

Camp checkers_on(std::initializer_list<int> points) {
  Camp camp{};
  camp[off_place] = checkers_per_side;
  for (const int point : points) {
    ++camp[static_cast<std::size_t>(point)];
    --camp[off_place];
  }
  return camp;
}

CubeValues values(std::initializer_list<int> on_roll, std::initializer_list<int> waiting) {
  const BearoffFamily& family = small_races().family();
  return small_races().values(family.rank(checkers_on(on_roll)), family.rank(checkers_on(waiting)));
}

TEST(SmallRaces, ParadoxPosition) {
  // Oswald Jacoby, The Backgammon Book, 1970; figures in The Independent, 12 September 1997,
  // "Backgammon": keeping the cube is worth 0.48, redoubling 0.22. These are points with the cube
  // at 2, that is twice the values in units of the current cube.
  const CubeValues paradox = values({5, 2}, {4, 1});
  EXPECT_NEAR(2 * paradox.hold_mine, 0.48, 0.005);
  EXPECT_NEAR(2 * paradox.offered(), 0.22, 0.005);
  EXPECT_FALSE(paradox.should_offer(CubeAccess::mine));
  // Against two on the 1-point, who cannot fail, redoubling is right.
  EXPECT_TRUE(values({5, 2}, {1, 1}).should_offer(CubeAccess::mine));
}

TEST(SmallRaces, LastRollTakePoint) {
  // Common practice; exact: with a quarter of the rolls (324 of 1,296) a last-roll double is just
  // a take, with less it is a drop.
  const BearoffFamily& family = small_races().family();
  const std::uint32_t sure = family.rank(checkers_on({1, 1}));
  int takes = 0;
  int drops = 0;
  int exactly_a_quarter = 0;
  for (std::uint32_t on_roll = 1; on_roll < family.size(); ++on_roll) {
    // A side that waits with a sure last roll wins exactly when the other fails now.
    const CubeValues value = small_races().values(on_roll, sure);
    const double other_wins = 1 - value.win;
    if (other_wins > 0.25 + 1e-12) {
      EXPECT_TRUE(value.should_take());
      ++takes;
    } else if (other_wins < 0.25 - 1e-12) {
      EXPECT_FALSE(value.should_take());
      ++drops;
    } else {
      EXPECT_NEAR(value.offered_and_taken(), 1.0, 1e-12);
      ++exactly_a_quarter;
    }
  }
  EXPECT_GT(takes, 0);
  EXPECT_GT(drops, 0);
  EXPECT_GT(exactly_a_quarter, 0);  // 324 of 1,296 does come up, e.g. 27 of 36 rolls
}

TEST(SmallRaces, AgreesWithExactFractionsUpToFourCheckers) {
  // All 209² = 43,681 pairs of up to four checkers a side, exact fractions over powers of 36,
  // plays from the rules room. The same pairs in a table of floats give the error of floats.
  ExactRaces exact;
  const BearoffFamily four(6, 4);
  std::vector<TwoSidedEntry<float>> entries(std::size_t{four.size()} * four.size());
  ASSERT_TRUE(solve_two_sided(four, std::span(entries), {}));
  const TwoSidedTable<float> floats(4, entries);
  const BearoffFamily& family = small_races().family();
  double largest = 0;
  double largest_float = 0;
  for (const Camp& on_roll : home_camps(4)) {
    for (const Camp& waiting : home_camps(4)) {
      const ExactRaces::Values& truth = exact.values(on_roll, waiting);
      const auto differ = [&](const CubeValues& v) {
        return std::max({std::abs(v.win - truth.win.value()),
                         std::abs(v.hold_centred - truth.hold_centred.value()),
                         std::abs(v.hold_mine - truth.hold_mine.value()),
                         std::abs(v.theirs - truth.theirs.value()),
                         std::abs(v.equity(CubeAccess::centred) - truth.centred.value()),
                         std::abs(v.equity(CubeAccess::mine) - truth.mine.value())});
      };
      largest = std::max(largest,
                         differ(small_races().values(family.rank(on_roll), family.rank(waiting))));
      largest_float =
          std::max(largest_float, differ(floats.values(four.rank(on_roll), four.rank(waiting))));
    }
  }
  EXPECT_LT(largest, 1e-13);
  EXPECT_LT(largest_float, 1e-6);
  RecordProperty("largest_float_difference", std::to_string(largest_float));
}

TEST(SmallRaces, CubeHelpsItsOwner) {
  // Having the cube is never worse than having it in the middle, which is never worse than facing
  // it: true of every game, and no part of how the table is filled.
  const std::uint32_t size = small_races().family().size();
  for (std::uint32_t on_roll = 1; on_roll < size; on_roll += 3) {
    for (std::uint32_t waiting = 1; waiting < size; waiting += 5) {
      const CubeValues v = small_races().values(on_roll, waiting);
      ASSERT_GE(v.equity(CubeAccess::mine), v.equity(CubeAccess::centred) - 1e-12);
      ASSERT_GE(v.equity(CubeAccess::centred), v.equity(CubeAccess::theirs) - 1e-12);
      ASSERT_LE(v.equity(CubeAccess::mine), 1.0 + 1e-12);
      ASSERT_GE(v.equity(CubeAccess::theirs), -1.0 - 1e-12);
    }
  }
}

TEST(TwoSided, SplitWorkGivesTheSameTable) {
  const BearoffFamily family(6, 4);
  std::vector<TwoSidedEntry<float>> serial(std::size_t{family.size()} * family.size());
  auto pieces = serial;
  ASSERT_TRUE(solve_two_sided(family, std::span(serial), {}));
  BuildHost host;
  host.in_parallel = [](std::size_t count, const auto& work) {
    for (std::size_t i = count; i > 0; --i) work(i - 1, i);  // one by one, last first
  };
  ASSERT_TRUE(solve_two_sided(family, std::span(pieces), host));
  for (std::size_t i = 0; i < serial.size(); ++i) {
    ASSERT_EQ(serial[i].win, pieces[i].win);
    ASSERT_EQ(serial[i].theirs, pieces[i].theirs);
  }
}

TEST(TwoSided, StopsWhenTheHostSaysSo) {
  const BearoffFamily family(6, 4);
  std::vector<TwoSidedEntry<float>> entries(std::size_t{family.size()} * family.size());
  BuildHost host;
  host.progress = [](double done) { return done < 0.5; };
  EXPECT_FALSE(solve_two_sided(family, std::span(entries), host));
}

}  // namespace
}  // namespace pointwright

#include "chance/three_checker.hpp"

#include <gtest/gtest.h>

#include "three_checker_checks.hpp"

namespace pointwright {
namespace {

/// The smaller solution of the same kind, with at most two checkers a side; the one with three is
/// checked alike by the program test_chance_slow.
struct TwoCheckers {
  std::vector<float> wins;
  std::vector<ThreeCheckerCube> cubes;
  ThreeCheckerReport report;
  TwoCheckers() {
    report = solve_three_checkers(
        ThreeCheckers(2),
        [&](std::span<const float> row) {
          wins.insert(wins.end(), row.begin(), row.end());
          return true;
        },
        [&](std::span<const ThreeCheckerCube> row) {
          cubes.insert(cubes.end(), row.begin(), row.end());
          return true;
        },
        {});
  }
  [[nodiscard]] ThreeCheckerTable table() const { return {2, wins, cubes}; }
};

const TwoCheckers& two_checkers() {
  static const TwoCheckers solved;
  return solved;
}

TEST(ThreeCheckers, NumbersEverySide) {
  const ThreeCheckers index;
  ASSERT_EQ(index.size(), 3276U);  // C(28,3), exact count
  for (std::uint32_t rank = 0; rank < index.size(); ++rank) {
    ASSERT_EQ(index.rank(index.places(rank)), rank);
    ASSERT_EQ(index.rank(index.camp(rank)), rank);
  }
}

TEST(ThreeCheckers, PlaysAreThoseOfTheRules) {
  // Boards after every play of every roll, against the rules room: blocks, blots hit on the way,
  // checkers on the bar, dice that cannot be played.
  const ThreeCheckers index;
  ThreeCheckerPlays plays(index);
  testing::RandomEndings endings(index, 20260105);
  using Pair = std::pair<std::uint32_t, std::uint32_t>;
  for (int i = 0; i < 1500; ++i) {
    const Board board = endings.next();
    const std::uint32_t own = index.rank(board.of(Side::light));
    const std::uint32_t other = index.rank(board.of(Side::dark));
    plays.find(own, index.block(other));
    for (std::size_t roll = 0; roll < 21; ++roll) {
      std::set<Pair> by_rules;
      for (const LegalPlay& play : legal_plays(board, Side::light, all_rolls()[roll])) {
        by_rules.emplace(index.rank(play.after.of(Side::light)),
                         index.rank(play.after.of(Side::dark)));
      }
      if (by_rules.empty()) by_rules.emplace(own, other);
      std::set<Pair> here;
      for (const Landing& landing : plays.lists()[roll]) {
        const std::size_t hits = ThreeCheckers::hits(index.blot_bits(other), landing.stops);
        here.emplace(landing.after, index.after_hits(other, hits));
      }
      ASSERT_EQ(here, by_rules) << i << " roll " << roll;
    }
  }
}

TEST(ThreeCheckerTable, BoundsMeet) {
  const ThreeCheckerReport& report = two_checkers().report;
  EXPECT_TRUE(report.complete);
  EXPECT_LE(report.win_residual, 1e-5);
  EXPECT_LE(report.cube_residual, 1e-5);
  EXPECT_EQ(report.without_value, 0U);
  EXPECT_GT(report.pairs, 100'000U);
}

TEST(ThreeCheckerTable, AgreesWithRacesWhereThereIsNoContact) {
  testing::check_against_races(two_checkers().table(), 1);
}

TEST(ThreeCheckerTable, IsItsOwnAverageOverTheRolls) {
  testing::check_one_roll_ahead(two_checkers().table(), 400);
}

TEST(ThreeCheckerTable, AgreesWithPlayedGames) {
  testing::check_by_simulation(two_checkers().table(), 200, 250);
}

TEST(ThreeCheckerTable, KnowsWhatItCovers) {
  const ThreeCheckerTable table = two_checkers().table();
  Board board;
  board.of(Side::light)[25] = 2;
  board.of(Side::light)[off_place] = 13;
  board.of(Side::dark)[3] = 1;
  board.of(Side::dark)[off_place] = 14;
  EXPECT_TRUE(table.covers(board));
  EXPECT_TRUE(table.values(board, Side::dark).has_value());
  board.of(Side::light)[20] = 1;
  EXPECT_FALSE(table.covers(board));
}

TEST(ThreeCheckerTable, StopsWhenTheHostSaysSo) {
  BuildHost host;
  host.progress = [](double) { return false; };
  const auto report = solve_three_checkers(
      ThreeCheckers(1), [](auto) { return true; }, [](auto) { return true; }, host);
  EXPECT_FALSE(report.complete);
}

}  // namespace
}  // namespace pointwright

#include "chance/three_checker.hpp"

#include <gtest/gtest.h>

#include "three_checker_checks.hpp"

namespace pointwright {
namespace {

/// The smaller solution of the same kind, with at most two checkers a side; the one with three is
/// checked alike by the program test_chance_slow.
class FewCheckers {
 public:
  explicit FewCheckers(int most, const BuildHost& host = {}) : most_(most) {
    report_ = solve_three_checkers(
        ThreeCheckers(most),
        [&](std::span<const float> row) {
          wins_.insert(wins_.end(), row.begin(), row.end());
          return true;
        },
        [&](std::span<const ThreeCheckerCube> row) {
          cubes_.insert(cubes_.end(), row.begin(), row.end());
          return true;
        },
        host);
  }
  [[nodiscard]] const std::vector<float>& wins() const { return wins_; }
  [[nodiscard]] const std::vector<ThreeCheckerCube>& cubes() const { return cubes_; }
  [[nodiscard]] ThreeCheckerTable table() const { return {most_, wins_, cubes_}; }
  [[nodiscard]] const ThreeCheckerReport& report() const { return report_; }

 private:
  int most_;
  std::vector<float> wins_;
  std::vector<ThreeCheckerCube> cubes_;
  ThreeCheckerReport report_;
};

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

TEST(ThreeCheckerTable, HoldsForTwoCheckersASide) {
  const FewCheckers solved(2);
  const ThreeCheckerReport& report = solved.report();
  EXPECT_TRUE(report.complete);
  EXPECT_LE(report.win_residual, 1e-5);
  EXPECT_LE(report.cube_residual, 1e-5);
  EXPECT_EQ(report.without_value, 0U);
  const ThreeCheckers index(2);
  std::size_t pairs = 0;
  for (std::uint32_t light = 1; light < index.size(); ++light) {
    for (std::uint32_t dark = 1; dark < index.size(); ++dark) {
      const Board board = testing::board_of(index, light, dark);
      bool shared = false;
      for (Place point = 1; point <= 24; ++point) {
        shared = shared || (board.count(Side::light, point) > 0 &&
                            board.count(Side::dark, mirrored(point)) > 0);
      }
      if (!shared) ++pairs;
    }
  }
  EXPECT_EQ(report.pairs, pairs);
  const ThreeCheckerTable table = solved.table();
  testing::check_against_races(table, 1);
  testing::check_one_roll_ahead(table, 400);
  testing::check_by_simulation(table, 200, 250);
}

TEST(ThreeCheckerTable, DoesNotDependOnHowTheWorkIsSplit) {
  // A host that does the last pieces first stands for threads that finish in any order.
  BuildHost backwards;
  backwards.in_parallel = [](std::size_t count, const auto& work) {
    for (std::size_t end = count; end > 0; --end) work(end - 1, end);
  };
  const FewCheckers one(2);
  const FewCheckers other(2, backwards);
  EXPECT_EQ(one.report().win_sweeps, other.report().win_sweeps);
  const auto same = [](float a, float b) { return a == b || (std::isnan(a) && std::isnan(b)); };
  ASSERT_EQ(one.wins().size(), other.wins().size());
  for (std::size_t i = 0; i < one.wins().size(); ++i) {
    ASSERT_TRUE(same(one.wins()[i], other.wins()[i])) << i;
    ASSERT_TRUE(same(one.cubes()[i].theirs, other.cubes()[i].theirs)) << i;
    ASSERT_TRUE(same(one.cubes()[i].hold_mine, other.cubes()[i].hold_mine)) << i;
    ASSERT_TRUE(same(one.cubes()[i].hold_centred, other.cubes()[i].hold_centred)) << i;
  }
}

TEST(ThreeCheckerTable, KnowsWhatItCovers) {
  const FewCheckers solved(1);
  const ThreeCheckerTable table = solved.table();
  Board board;
  board.of(Side::light)[25] = 1;
  board.of(Side::light)[off_place] = 14;
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

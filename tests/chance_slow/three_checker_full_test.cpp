// The full three-checker endgame, solved, stored and checked. Takes minutes: run it by name,
//   build/release/tests/test_chance_slow

#include <gtest/gtest.h>

#include "../chance/three_checker_checks.hpp"
#include "table_store/parallel_host.hpp"
#include "table_store/table_store.hpp"

namespace pointwright {
namespace {

/// Solved once and kept beside the tests; delete the file to solve it again.
const ThreeCheckerTable& full() {
  static const StoredThreeChecker stored = [] {
    const std::filesystem::path path =
        std::filesystem::path(POINTWRIGHT_BINARY_DIR) / three_checker_name();
    auto opened = StoredThreeChecker::open(path);
    if (!opened) {
      ThreeCheckerReport report;
      const std::string problem = build_three_checker(path, parallel_host(2), &report);
      EXPECT_EQ(problem, "");
      std::printf("sweeps %d %d %d, residuals %.2g %.2g, pairs %zu, without a value %zu\n",
                  report.win_sweeps, report.held_sweeps, report.centred_sweeps, report.win_residual,
                  report.cube_residual, report.pairs, report.without_value);
      opened = StoredThreeChecker::open(path);
    }
    return std::move(opened.value());
  }();
  return stored.table();
}

TEST(FullThreeChecker, AgreesWithRacesWhereThereIsNoContact) {
  testing::check_against_races(full(), 1);
}

TEST(FullThreeChecker, IsItsOwnAverageOverTheRolls) {
  testing::check_one_roll_ahead(full(), 2000);
}

TEST(FullThreeChecker, AgreesWithPlayedGames) {
  testing::check_by_simulation(full(), 400, 1000);
}

}  // namespace
}  // namespace pointwright

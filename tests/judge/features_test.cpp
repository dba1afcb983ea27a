#include "judge/features.hpp"

#include <gtest/gtest.h>

#include "chance/next_roll.hpp"
#include "rules/position.hpp"
#include "tests/judge/plain_measures.hpp"
#include "tests/rules/random_positions.hpp"

namespace pointwright::judge {
namespace {

constexpr int shot_chance = 1;

/// With one hitter, one blot and no other obligation the measure is the exact count.
TEST(Measures, CountShotsExactlyWhereNothingElseMatters) {
  for (int from = 2; from <= 24; ++from) {
    for (int at = 1; at < from; ++at) {
      Board board;
      board.of(Side::light)[static_cast<std::size_t>(from)] = 1;
      board.of(Side::light)[off_place] = 14;
      board.of(Side::dark)[static_cast<std::size_t>(25 - at)] = 1;
      board.of(Side::dark)[off_place] = 14;
      Measures measures;
      measure(board, Side::light, measures);
      const int exact =
          chance::count(chance::NextRoll(board, Side::light), *chance::read_query("hit")).ways;
      ASSERT_NEAR(36 * measures[shot_chance], exact, 1e-4) << to_text(board);
    }
  }
}

TEST(Measures, EqualThePlainOnes) {
  std::mt19937_64 random(11);
  for (int i = 0; i < 20'000; ++i) {
    const Board board = pointwright::testing::random_board(random);
    Measures fast;
    Measures slow;
    measure(board, Side::light, fast);
    plain::measure(board, Side::light, slow);
    ASSERT_EQ(fast, slow) << to_text(board);
  }
}

TEST(Measures, SwapWithTheSides) {
  const Board board = read_position("light barx1 13x4 6x5; dark 24x2 20x2 6x6").value().board;
  Measures light;
  Measures dark;
  measure(board, Side::light, light);
  measure(board, Side::dark, dark);
  for (int i = 0; i < measures_per_side; ++i) {
    EXPECT_EQ(light[static_cast<std::size_t>(i)],
              dark[static_cast<std::size_t>(i + measures_per_side)]);
    EXPECT_EQ(dark[static_cast<std::size_t>(i)],
              light[static_cast<std::size_t>(i + measures_per_side)]);
  }
}

}  // namespace
}  // namespace pointwright::judge

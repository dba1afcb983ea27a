#include "judge/features.hpp"

#include <gtest/gtest.h>

#include "chance/next_roll.hpp"
#include "judge/kernels.hpp"
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

// In every way that this machine can count.
TEST(Measures, EqualThePlainOnes) {
  std::mt19937_64 random(11);
  for (int i = 0; i < 50'000; ++i) {
    const Board board = pointwright::testing::random_board(random);
    Measures slow;
    plain::measure(board, Side::light, slow);
    for (const Kernels* kernels : all_kernels()) {
      Counts counts;
      kernels->count(board, Side::light, counts);
      ASSERT_EQ(in_units(counts), slow) << kernels->name << ": " << to_text(board);
    }
  }
}

// Few checkers, so that a checker or two meets every pattern of blocked points, and the corners:
// nobody left, everybody on the bar, all off but one.
TEST(Measures, EqualThePlainOnesOnSparseBoards) {
  std::mt19937_64 random(12);
  for (int i = 0; i < 50'000; ++i) {
    Board board;
    const auto mine = static_cast<std::uint32_t>(random() & random() & random());
    const auto theirs = static_cast<std::uint32_t>(random() & random());
    for (Place place = 1; place <= bar_place; ++place) {
      const auto many = [&] { return static_cast<std::uint8_t>(1 + random() % 2); };
      if (((mine >> place) & 1U) != 0) board.of(Side::light)[place] = many();
      if (((theirs >> place) & 1U) != 0 &&
          (place == bar_place || board.count(Side::light, mirrored(place)) == 0))
        board.of(Side::dark)[place] = many();
    }
    if (random() % 8 == 0)
      board.of(Side::light)[bar_place] = static_cast<std::uint8_t>(random() % 6);
    Measures slow;
    plain::measure(board, Side::dark, slow);
    for (const Kernels* kernels : all_kernels()) {
      Counts counts;
      kernels->count(board, Side::dark, counts);
      ASSERT_EQ(in_units(counts), slow) << kernels->name << ": " << to_text(board);
    }
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

#include "judge/parallel_search.hpp"

#include <gtest/gtest.h>

#include "judge/shipped.hpp"
#include "rules/position.hpp"
#include "table_store/parallel_host.hpp"
#include "tests/rules/random_positions.hpp"

namespace pointwright::judge {
namespace {

void expect_same(const std::vector<RankedPlay>& one, const std::vector<RankedPlay>& other) {
  ASSERT_EQ(one.size(), other.size());
  for (std::size_t i = 0; i < one.size(); ++i) {
    EXPECT_EQ(one[i].play.after, other[i].play.after);
    EXPECT_EQ(one[i].chances, other[i].chances);
    EXPECT_EQ(one[i].equity, other[i].equity);
    EXPECT_EQ(one[i].depth, other[i].depth);
    EXPECT_EQ(one[i].origin, other[i].origin);
  }
}

void expect_same(const SearchedValue& one, const SearchedValue& other) {
  EXPECT_EQ(one.chances, other.chances);
  EXPECT_EQ(one.equity, other.equity);
  EXPECT_EQ(one.depth, other.depth);
  EXPECT_EQ(one.origin, other.origin);
}

/// Asks both searches the same, plays and positions mixed, with and without gammons.
void compare(Search& search, std::uint64_t seed, int depth, int decisions) {
  Search plain(shipped_evaluator());
  std::mt19937_64 random(seed);
  for (int i = 0; i < decisions; ++i) {
    const Board any = testing::random_board(random);
    const Roll roll(1 + static_cast<int>(random() % 6), 1 + static_cast<int>(random() % 6));
    const Side side = i % 2 == 0 ? Side::light : Side::dark;
    const Valuation valuation = i % 3 == 0 ? Valuation::singles() : Valuation::money();
    expect_same(plain.rank(any, side, roll, depth, valuation),
                search.rank(any, side, roll, depth, valuation));
    expect_same(plain.worth(any, side, depth, valuation),
                search.worth(any, side, depth, valuation));
    ASSERT_FALSE(::testing::Test::HasFailure()) << to_text(any);
  }
}

class Workers : public ::testing::TestWithParam<unsigned> {};

TEST_P(Workers, FindWhatOneFindsToTheLastBit) {
  ParallelSearch search(shipped_evaluator(), parallel_host(GetParam()), GetParam());
  compare(search, 11, 0, 40);
  compare(search, 12, 1, 120);
  compare(search, 13, 2, 10);
}

INSTANTIATE_TEST_SUITE_P(ParallelSearch, Workers, ::testing::Values(1U, 2U, 3U, 7U));

// More threads than desks: some wait, none is lost.
TEST(ParallelSearch, MakesDoWithTooFewDesks) {
  ParallelSearch search(shipped_evaluator(), parallel_host(3), 1);
  compare(search, 14, 1, 40);
}

TEST(ParallelSearch, DoesNotCareInWhichOrderPiecesAreDone) {
  BuildHost backwards;
  backwards.in_parallel = [](std::size_t count, const auto& work) {
    for (std::size_t i = count; i > 0; --i) work(i - 1, i);
  };
  ParallelSearch search(shipped_evaluator(), backwards, 2);
  compare(search, 15, 1, 40);
  compare(search, 16, 2, 4);
}

TEST(ParallelSearch, NeedsNoHost) {
  ParallelSearch search(shipped_evaluator(), {}, 0);
  compare(search, 17, 1, 20);
}

// Early and late in a game, where tables answer for some plays and not for others.
TEST(ParallelSearch, LeavesExactAnswersAlone) {
  ParallelSearch search(shipped_evaluator(), parallel_host(2), 2);
  Search plain(shipped_evaluator());
  for (const char* line : {"light 8x1 6x2 3x2 1x1; dark 7x1 5x2 4x1; light to roll",
                           "light 24x1 6x2 3x2; dark 21x1 4x3 2x1; light to roll",
                           "light 1x2; dark 1x3; light to roll"}) {
    const auto position = read_position(line);
    ASSERT_TRUE(position.ok()) << line;
    const Board board = position->board;
    for (const Roll roll : all_rolls()) {
      for (int depth = 0; depth <= 2; ++depth)
        expect_same(plain.rank(board, Side::light, roll, depth),
                    search.rank(board, Side::light, roll, depth));
    }
  }
}

}  // namespace
}  // namespace pointwright::judge

#include "train/sieve_check.hpp"

#include <gtest/gtest.h>

#include "judge/shipped.hpp"
#include "tests/rules/random_positions.hpp"

namespace pointwright::train {
namespace {

// What follows from the values of all plays is what the search does with its sieves.
TEST(SieveCheck, ChoosesAsTheSearchDoes) {
  judge::SearchOptions narrow;
  narrow.first = {5, 0.1F};
  narrow.second = {2, 0.03F};
  judge::Search search(judge::shipped_evaluator(), narrow);
  std::mt19937_64 random(21);
  int compared = 0;
  for (int i = 0; i < 30; ++i) {
    const Board any = pointwright::testing::random_board(random);
    const Roll roll(1 + static_cast<int>(random() % 6), 1 + static_cast<int>(random() % 6));
    const auto legal = legal_plays(any, Side::light, roll);
    if (legal.size() < 2 || legal.size() > 40) continue;
    std::vector<SeenPlay> plays;
    for (const LegalPlay& play : legal) {
      const auto worth = [&](int depth) {
        return -search.worth(play.after, Side::dark, depth).equity;
      };
      plays.push_back({worth(0), worth(1), worth(2)});
    }
    const Board expected = search.best_after(any, Side::light, roll, 2);
    ASSERT_EQ(legal[chosen_through(plays, narrow.first, narrow.second)].after, expected)
        << to_text(any);
    ++compared;
  }
  EXPECT_GT(compared, 8);
}

TEST(SieveCheck, HoldsBackWhatStandsBehind) {
  const std::vector<SeenPlay> plays{{0.10F, 0.0F, 0.0F}, {0.09F, 0.2F, 0.1F}, {0.0F, 0.3F, 0.9F}};
  EXPECT_EQ(chosen_through(plays, {1, 0.5F}, {1, 0.5F}), 0U);
  EXPECT_EQ(chosen_through(plays, {3, 0.05F}, {3, 0.5F}), 1U);
  EXPECT_EQ(chosen_through(plays, {3, 0.5F}, {1, 0.5F}), 2U);
  EXPECT_EQ(chosen_through(plays, {2, 0.5F}, {2, 0.5F}), 1U);
}

}  // namespace
}  // namespace pointwright::train

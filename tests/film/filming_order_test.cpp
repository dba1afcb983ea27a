#include "film/filming_order.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>
#include <random>

#include "tests/page/sample_course.hpp"

namespace pointwright::film {
namespace {

TransferCosts random_costs(std::size_t shots, unsigned seed) {
  std::mt19937 random(seed);
  TransferCosts costs(shots + 1);
  for (std::size_t i = 0; i <= shots; ++i) {
    for (std::size_t j = 1; j <= shots; ++j) {
      if (i != j) costs.at(i, j) = static_cast<long>(random() % 20);
    }
  }
  return costs;
}

bool is_order(const std::vector<std::size_t>& order, std::size_t n) {
  std::vector<std::size_t> all(n);
  std::iota(all.begin(), all.end(), std::size_t{0});
  return std::is_permutation(order.begin(), order.end(), all.begin(), all.end());
}

long best_of_all(const TransferCosts& costs) {
  std::vector<std::size_t> order(costs.size() - 1);
  std::iota(order.begin(), order.end(), std::size_t{0});
  long best = touched_in(costs, order);
  while (std::next_permutation(order.begin(), order.end())) {
    best = std::min(best, touched_in(costs, order));
  }
  return best;
}

TEST(FilmingOrder, ShortListsAreBestAgainstEveryOrder) {
  for (unsigned seed = 0; seed < 60; ++seed) {
    const std::size_t n = 1 + seed % 7;
    const TransferCosts costs = random_costs(n, seed);
    const FilmingOrder found = exact_order(costs);
    ASSERT_TRUE(is_order(found.order, n));
    EXPECT_EQ(found.touched, best_of_all(costs));
    EXPECT_EQ(touched_in(costs, found.order), found.touched);
    EXPECT_TRUE(found.is_best());
    // The way for long lists is never better than the best, nor its bound worse.
    const FilmingOrder good = good_order(costs);
    ASSERT_TRUE(is_order(good.order, n));
    EXPECT_GE(good.touched, found.touched);
    EXPECT_LE(good.at_least, found.touched);
  }
}

TEST(FilmingOrder, LongListsStayAboveTheirBound) {
  for (unsigned seed = 0; seed < 5; ++seed) {
    const TransferCosts costs = random_costs(60, seed);
    const FilmingOrder good = filming_order(costs);
    ASSERT_TRUE(is_order(good.order, 60));
    EXPECT_EQ(touched_in(costs, good.order), good.touched);
    EXPECT_GE(good.touched, good.at_least);
    std::vector<std::size_t> script(60);
    std::iota(script.begin(), script.end(), std::size_t{0});
    EXPECT_LE(good.touched, touched_in(costs, script));
  }
}

TEST(FilmingOrder, NoShotsNoOrder) {
  EXPECT_TRUE(filming_order(TransferCosts(1)).order.empty());
}

TEST(FilmingOrder, ShotsOfACourse) {
  const Storyboard course = sample_course();
  const auto shots = shots_of(course);
  const TransferCosts costs = transfer_costs(*shots);
  const FilmingOrder found = filming_order(costs);
  ASSERT_TRUE(is_order(found.order, shots->size()));
  // The costs are those of the changes that the sheets tell.
  long told = first_set_up((*shots)[found.order.front()]).touched;
  for (std::size_t i = 1; i < found.order.size(); ++i) {
    told += change_between((*shots)[found.order[i - 1]], (*shots)[found.order[i]]).touched;
  }
  EXPECT_EQ(told, found.touched);
}

}  // namespace
}  // namespace pointwright::film

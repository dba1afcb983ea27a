#include "film/set_up.hpp"

#include <gtest/gtest.h>

#include <deque>
#include <map>
#include <random>

#include "film/assignment.hpp"
#include "rules/position.hpp"

namespace pointwright::film {
namespace {

Board board_of(const std::string& text) {
  return read_position(text)->board;
}

/// Does what a change says, checking on the way that nothing impossible is done.
Board carried_out(Board board, const Change& change) {
  std::array<int, 2> aside{};
  int touched = 0;
  int twice = 0;
  for (const Carry& carry : change.carries) {
    EXPECT_GT(carry.count, 0);
    for (int i = 0; i < carry.count; ++i) {
      int& table = aside[index(carry.side)];
      if (carry.kind == Carry::Kind::back) {
        EXPECT_GT(table--, 0);
        ++twice;
      } else {
        EXPECT_GT(board.count(carry.side, carry.from), 0);
        --board.of(carry.side)[carry.from];
        ++touched;
      }
      if (carry.kind == Carry::Kind::aside) {
        ++table;
        continue;
      }
      const bool shared = carry.to == off_place || carry.to == bar_place;
      EXPECT_TRUE(shared || board.count(opponent(carry.side), mirrored(carry.to)) == 0)
          << "lands among the other side's";
      ++board.of(carry.side)[carry.to];
    }
  }
  EXPECT_EQ(aside[0] + aside[1], 0) << "left on the table";
  EXPECT_EQ(touched, change.touched);
  EXPECT_EQ(twice, change.laid_aside);
  return board;
}

/// The fewest carries from each board of a small world to one that is wanted, by trying everything:
/// a board of a few points, on which one checker after another may be carried to any place that has
/// none of the other side's. The places are 0 (beside the board, for both sides) and the points 1
/// to `points`, numbered alike for both.
class SmallWorld {
 public:
  using Camps = std::array<std::array<int, 4>, 2>;
  static constexpr int points = 3;

  static std::vector<Camps> boards(int light, int dark) {
    std::vector<Camps> all;
    for (const auto& a : camps(light)) {
      for (const auto& b : camps(dark)) {
        bool possible = true;
        for (std::size_t p = 1; p <= points; ++p) possible = possible && (a[p] == 0 || b[p] == 0);
        if (possible) all.push_back({a, b});
      }
    }
    return all;
  }

  static std::map<Camps, int> fewest_carries_from(const Camps& start) {
    std::map<Camps, int> fewest{{start, 0}};
    std::deque<Camps> queue{start};
    while (!queue.empty()) {
      const Camps here = queue.front();
      queue.pop_front();
      for (std::size_t side = 0; side < 2; ++side) {
        for (std::size_t from = 0; from <= points; ++from) {
          for (std::size_t to = 0; to <= points; ++to) {
            if (from == to || here[side][from] == 0) continue;
            if (to != 0 && here[1 - side][to] > 0) continue;
            Camps there = here;
            --there[side][from];
            ++there[side][to];
            if (fewest.emplace(there, fewest[here] + 1).second) queue.push_back(there);
          }
        }
      }
    }
    return fewest;
  }

  static Board board(const Camps& camps) {
    Board result;
    for (std::size_t p = 0; p <= points; ++p) {
      const auto place = static_cast<Place>(p);
      result.of(Side::light)[place] = static_cast<std::uint8_t>(camps[0][p]);
      result.of(Side::dark)[p == 0 ? off_place : mirrored(place)] =
          static_cast<std::uint8_t>(camps[1][p]);
    }
    return result;
  }

 private:
  static std::vector<std::array<int, 4>> camps(int checkers) {
    std::vector<std::array<int, 4>> all;
    for (int a = 0; a <= checkers; ++a) {
      for (int b = 0; a + b <= checkers; ++b) {
        for (int c = 0; a + b + c <= checkers; ++c) all.push_back({checkers - a - b - c, a, b, c});
      }
    }
    return all;
  }
};

TEST(SetUp, FewestCarriesAgainstEverythingTried) {
  int compared = 0;
  int with_aside = 0;
  for (const auto& [light, dark] : {std::pair{2, 2}, {3, 2}, {3, 3}, {4, 1}}) {
    const auto boards = SmallWorld::boards(light, dark);
    // Every pair of boards; of the larger worlds every third start.
    const std::size_t stride = boards.size() > 120 ? 3 : 1;
    for (std::size_t i = 0; i < boards.size(); i += stride) {
      const auto fewest = SmallWorld::fewest_carries_from(boards[i]);
      for (const auto& wanted : boards) {
        const Change change =
            change_between(SmallWorld::board(boards[i]), SmallWorld::board(wanted));
        ASSERT_TRUE(change.fewest_carries);
        ASSERT_EQ(change.touched + change.laid_aside, fewest.at(wanted));
        ASSERT_EQ(carried_out(SmallWorld::board(boards[i]), change), SmallWorld::board(wanted));
        ++compared;
        with_aside += change.laid_aside > 0 ? 1 : 0;
      }
    }
  }
  EXPECT_GT(compared, 20'000);
  EXPECT_GT(with_aside, 100) << "the hard cases are among them";
}

TEST(SetUp, RandomBoardsAreReached) {
  std::mt19937 random(2026);
  const auto any_board = [&] {
    Board board;
    for (const Side side : {Side::light, Side::dark}) {
      for (int i = 0; i < checkers_per_side; ++i) {
        auto place = static_cast<Place>(random() % 26);
        if (place != off_place && place != bar_place &&
            board.count(opponent(side), mirrored(place)) > 0) {
          place = off_place;
        }
        ++board.of(side)[place];
      }
    }
    return board;
  };
  for (int i = 0; i < 3000; ++i) {
    const Board from = any_board();
    const Board to = any_board();
    const Change change = change_between(from, to);
    ASSERT_EQ(change.touched, checkers_to_touch(from, to));
    ASSERT_EQ(carried_out(from, change), to);
  }
}

TEST(SetUp, NothingToDo) {
  const Board board = starting_board();
  const Change change = change_between(board, board);
  EXPECT_TRUE(change.carries.empty());
  EXPECT_EQ(change.touched, 0);
}

TEST(SetUp, GoesTheShortestWay) {
  // One from the 8 and one from the 13 are wanted on the 7 and the 12: neighbours, not crosswise.
  const Change change =
      change_between(board_of("light 8x1 13x1; dark 6x2"), board_of("light 7x1 12x1; dark 6x2"));
  EXPECT_EQ(change.carries, (std::vector<Carry>{{Carry::Kind::over, Side::light, 8, 7, 1},
                                                {Carry::Kind::over, Side::light, 13, 12, 1}}));
}

TEST(SetUp, TwoThatChangePlacesNeedTheTable) {
  const Change change =
      change_between(board_of("light 8x2; dark 6x2"), board_of("light 19x2; dark 17x2"));
  EXPECT_EQ(change.touched, 4);
  EXPECT_EQ(change.laid_aside, 2);
  EXPECT_EQ(carry_text(change.carries.front(), "Ivory"), "2 of Ivory: 8 aside");
}

TEST(SetUp, ReadingMirroredTwiceChangesNothing) {
  const Board board = board_of("light barx1 24x2 13x5 8x3 6x4; dark 20x2 13x5 8x3 6x5");
  EXPECT_EQ(read_mirrored(read_mirrored(board)), board);
  EXPECT_EQ(read_mirrored(board_of("light 1x1 24x2; dark 6x2")),
            board_of("light 12x1 13x2; dark 7x2"));
}

TEST(Assignment, IsTheCheapestOfAll) {
  std::mt19937 random(7);
  for (int round = 0; round < 400; ++round) {
    const std::size_t n = 1 + random() % 6;
    CostTable costs(n);
    for (std::size_t i = 0; i < n * n; ++i) {
      costs.at(i / n, i % n) = static_cast<long>(random() % 21) - 5;
    }
    std::vector<std::size_t> order(n);
    for (std::size_t i = 0; i < n; ++i) order[i] = i;
    long best = cost_of(costs, order);
    while (std::next_permutation(order.begin(), order.end())) {
      best = std::min(best, cost_of(costs, order));
    }
    const auto found = cheapest_assignment(costs);
    ASSERT_TRUE(std::is_permutation(found.begin(), found.end(), order.begin()));
    ASSERT_EQ(cost_of(costs, found), best);
  }
}

}  // namespace
}  // namespace pointwright::film

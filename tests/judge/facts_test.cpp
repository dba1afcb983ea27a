#include "judge/facts.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "rules/position.hpp"
#include "tests/rules/random_positions.hpp"

namespace pointwright::judge {
namespace {

Board board(std::string_view line) {
  return read_position(line)->board;
}

/// The longest row by its definition: tries every stretch of points.
int plain_prime(const Board& board, Side side) {
  int longest = 0;
  for (int low = 1; low <= 24; ++low) {
    for (int high = low; high <= 24; ++high) {
      bool held = true;
      for (int point = low; point <= high; ++point)
        held = held && board.count(side, static_cast<Place>(point)) >= 2;
      bool to_be_passed = false;
      for (int theirs = 25 - low + 1; theirs <= 25; ++theirs)
        to_be_passed = to_be_passed || board.count(opponent(side), static_cast<Place>(theirs)) > 0;
      if (held && to_be_passed) longest = std::max(longest, high - low + 1);
    }
  }
  return longest;
}

TEST(Facts, TheLongestPrimeIsTheLongestOfAllStretches) {
  std::mt19937_64 random(11);
  for (int i = 0; i < 3000; ++i) {
    const Board any = pointwright::testing::random_board(random);
    for (const Side side : {Side::light, Side::dark})
      ASSERT_EQ(longest_prime(any, side), plain_prime(any, side)) << to_text(any);
  }
}

TEST(Facts, BuildersAreSpareAndBearOnAPointToBeMade) {
  EXPECT_EQ(builders(starting_board(), Side::light), 1);  // the third on the 8
  EXPECT_EQ(builders(board("light 8x2 12x1; dark 24x2"), Side::light), 1);
  EXPECT_EQ(builders(board("light 12x1 6x2; dark 24x2"), Side::light), 0);  // the 6 is made
  EXPECT_EQ(builders(board("light 11x3 6x2; dark 20x2"), Side::light), 0);  // the 5 is theirs
  EXPECT_EQ(builders(board("light 7x4 6x2 5x2 4x2 3x2 2x2; dark 24x1"), Side::light), 2);
  EXPECT_EQ(builders(board("light 13x3; dark 24x1"), Side::light), 0);  // seven pips away
}

TEST(Facts, OfAPlayAgreeWithTheBoardsBeforeAndAfter) {
  std::mt19937_64 random(12);
  int plays_seen = 0;
  for (int i = 0; i < 400; ++i) {
    const Board before = pointwright::testing::random_board(random);
    const Roll roll(1 + static_cast<int>(random() % 6), 1 + static_cast<int>(random() % 6));
    for (const Side side : {Side::light, Side::dark}) {
      for (const LegalPlay& play : legal_plays(before, side, roll)) {
        const PlayFacts facts = facts_of(before, side, play);
        ++plays_seen;
        const Side other = opponent(side);
        for (int point = 1; point <= 24; ++point) {
          const auto place = static_cast<Place>(point);
          const int was = before.count(side, place);
          const int is = play.after.count(side, place);
          ASSERT_EQ(std::ranges::count(facts.made, place), was < 2 && is >= 2 ? 1 : 0);
          ASSERT_EQ(std::ranges::count(facts.broken, place), was >= 2 && is < 2 ? 1 : 0);
          ASSERT_EQ(std::ranges::count(facts.blots, place), is == 1 ? 1 : 0);
        }
        ASSERT_EQ(static_cast<int>(facts.hits.size()),
                  play.after.count(other, bar_place) - before.count(other, bar_place));
        ASSERT_EQ(facts.on_their_bar, play.after.count(other, bar_place));
        ASSERT_EQ(facts.off, play.after.count(side, off_place) - before.count(side, off_place));
        int behind = 0;
        for (Place place = 19; place <= bar_place; ++place)
          behind += before.count(side, place) - play.after.count(side, place);
        ASSERT_EQ(facts.escaped, behind);
        ASSERT_EQ(facts.pips, pip_count(play.after, side));
      }
    }
  }
  EXPECT_GT(plays_seen, 3000);
}

/// The shots by the rules alone: every one of the 36 throws, every legal play.
TEST(Shots, AreCountedAsTheRulesCountThem) {
  std::mt19937_64 random(13);
  for (int i = 0; i < 150; ++i) {
    const Board any = pointwright::testing::random_board(random);
    const Shots counted = shots(chance::NextRoll(any, Side::dark));
    std::array<int, 25> ways{};
    int all = 0;
    for (int first = 1; first <= 6; ++first) {
      for (int second = 1; second <= 6; ++second) {
        std::array<bool, 25> hit{};
        for (const LegalPlay& play : legal_plays(any, Side::dark, Roll(first, second))) {
          for (std::size_t point = 1; point <= 24; ++point) {
            const auto place = static_cast<Place>(point);
            if (any.count(Side::light, place) == 1 && play.after.count(Side::light, place) == 0)
              hit[point] = true;
          }
        }
        all += std::ranges::count(hit, true) > 0 ? 1 : 0;
        for (std::size_t point = 1; point <= 24; ++point) ways[point] += hit[point] ? 1 : 0;
      }
    }
    ASSERT_EQ(counted.ways, all) << to_text(any);
    int named = 0;
    for (const Shots::OnBlot& blot : counted.blots) {
      ASSERT_EQ(blot.ways, ways[blot.blot]) << to_text(any);
      ++named;
      bool near = false;
      for (int distance = 1; distance <= 6 && distance <= blot.blot; ++distance)
        near = near || any.count(Side::dark, static_cast<Place>(25 - blot.blot + distance)) > 0;
      ASSERT_EQ(blot.direct, near);
    }
    ASSERT_EQ(named, std::ranges::count_if(ways, [](int n) { return n > 0; }));
  }
}

}  // namespace
}  // namespace pointwright::judge

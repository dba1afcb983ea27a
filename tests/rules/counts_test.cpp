// Counts that can be made exactly, against published facts.

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdint>
#include <set>
#include <string>
#include <utility>

#include "rules/board.hpp"
#include "rules/play.hpp"
#include "rules/roll.hpp"
#include "rules/setup.hpp"
#include "tests/reference/compare.hpp"

namespace pointwright {
namespace {

__extension__ using Wide = unsigned __int128;  // the number of arrangements is just above 2^64

/// The number of ways to choose `k` of `n`.
Wide choose(int n, int k) {
  Wide ways = 1;
  for (int i = 1; i <= k; ++i) ways = ways * static_cast<Wide>(n - k + i) / static_cast<Wide>(i);
  return ways;
}

std::string digits(Wide number) {
  std::string text;
  for (; number > 0; number /= 10) text.insert(text.begin(), static_cast<char>('0' + number % 10));
  return text;
}

/// The number of arrangements of `n` and `n` checkers on points, bar and off. Light stands on
/// exactly k of the 24 points; its other checkers go on those, the bar or off (k + 2 places);
/// dark's n go anywhere on the 24 - k other points, the bar or off.
Wide arrangements(int n) {
  Wide total = 0;
  for (int k = 0; k <= n && k <= 24; ++k) {
    total += choose(24, k) * choose(n + 1, k + 1) * choose(n + 25 - k, n);
  }
  return total;
}

TEST(Counts, LegalArrangementsOfFifteenAndFifteen) {
  // Source: widely published; from memory, confirmed here by the exact count above.
  EXPECT_EQ(digits(arrangements(checkers_per_side)), "18528584051601162496");
}

TEST(Counts, ValidateAcceptsExactlyTheArrangementsOfTwoAndTwo) {
  // The formula against the program: every way to put two light and two dark checkers on points,
  // bar and off, the other thirteen borne off, that `validate` accepts. Those on which both sides
  // have borne off all are no position of any game, so they are counted apart.
  std::uint64_t accepted = 0;
  std::uint64_t both_off = 0;
  for (std::size_t a = 0; a <= bar_place; ++a) {
    for (std::size_t b = a; b <= bar_place; ++b) {
      for (std::size_t c = 0; c <= bar_place; ++c) {
        for (std::size_t d = c; d <= bar_place; ++d) {
          pointwright::Setup setup;
          for (const std::size_t place : {a, b}) {
            if (place != off_place) ++setup.camps[0].at(place);
          }
          for (const std::size_t place : {c, d}) {
            if (place != off_place) ++setup.camps[1].at(place);
          }
          if (b == off_place && d == off_place) {
            ++both_off;
          } else if (validate(setup).ok()) {
            ++accepted;
          }
        }
      }
    }
  }
  EXPECT_EQ(digits(accepted + both_off), digits(arrangements(2)));
}

TEST(Counts, ThrowsAndRolls) {
  // 36 ordered throws, 21 distinct rolls, mean 49/6 pips (common practice; exact).
  std::set<std::pair<int, int>> distinct;
  int throws = 0;
  int pips = 0;
  for (const Roll roll : all_rolls()) {
    distinct.emplace(roll.high(), roll.low());
    throws += roll.ways();
    pips += roll.ways() * roll.pips();
  }
  EXPECT_EQ(distinct.size(), 21U);
  EXPECT_EQ(throws, 36);
  EXPECT_EQ(pips * 6, 49 * 36);
}

TEST(Counts, EnteringAgainstClosedPoints) {
  // (36 - k*k)/36 for k closed points, whichever they are: 35 32 27 20 11 0 of 36.
  // Source: Jacoby and Crawford, The Backgammon Book, 1970, ch. 4; exact.
  for (unsigned closed = 0; closed < 64; ++closed) {
    Board board;
    int k = 0;
    for (unsigned point = 1; point <= last_home_point; ++point) {
      if ((closed >> (point - 1) & 1U) == 0) continue;
      board.of(Side::dark).at(point) = 2;
      ++k;
    }
    board.of(Side::dark).at(7) = static_cast<std::uint8_t>(checkers_per_side - 2 * k);
    board.of(Side::light).at(bar_place) = 1;
    board.of(Side::light).at(off_place) = 14;
    int entering = 0;
    for (const Roll roll : all_rolls()) {
      if (!legal_plays(board, Side::light, roll).empty()) entering += roll.ways();
    }
    EXPECT_EQ(entering, 36 - k * k) << "closed: " << closed;
  }
}

TEST(Counts, PositionsOfBearingOff) {
  // 54,264 = C(21,6) one-sided positions of up to 15 checkers on 6 points, the empty one among them
  // (exact).
  int positions = 1;
  reference::for_each_home_board([&](const Board& board) {
    EXPECT_TRUE(all_home(board, Side::light));
    ++positions;
    return true;
  });
  EXPECT_EQ(positions, 54'264);
  EXPECT_EQ(digits(choose(21, 6)), "54264");
}

TEST(Counts, AnyDoubleMovesABareCheckerFourTimes) {
  // With nothing in the way a roll moves a lone checker by its pips, doubles four times (common
  // practice, every rule book).
  for (const Roll roll : all_rolls()) {
    Board board;
    board.of(Side::light).at(24) = 1;
    board.of(Side::light).at(off_place) = 14;
    board.of(Side::dark).at(bar_place) = checkers_per_side;
    const auto plays = legal_plays(board, Side::light, roll);
    ASSERT_EQ(plays.size(), 1U);
    EXPECT_EQ(pip_count(plays[0].after, Side::light), std::max(0, 24 - roll.pips()));
  }
}

}  // namespace
}  // namespace pointwright

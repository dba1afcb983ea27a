// The generator of legal plays against the slow, simple reference generator in tests/reference, and
// that reference against examples small enough to count by hand.

#include "tests/reference/reference.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdint>
#include <initializer_list>
#include <string>
#include <utility>

#include "rules/play.hpp"
#include "rules/position.hpp"
#include "tests/reference/compare.hpp"
#include "tests/reference/positions.hpp"
#include "tests/reference/signature.hpp"
#include "tests/support/scale.hpp"

namespace pointwright {
namespace {

using reference::Kind;
using testing_support::scaled;

using Places = std::initializer_list<std::pair<int, int>>;

/// A board with so many checkers of each side on places as it counts, the others off.
Board board_with(Places light, Places dark) {
  Board board;
  for (const auto& [side, places] : {std::pair{Side::light, light}, std::pair{Side::dark, dark}}) {
    int left = checkers_per_side;
    for (const auto& [place, n] : places) {
      board.of(side).at(static_cast<std::size_t>(place)) = static_cast<std::uint8_t>(n);
      left -= n;
    }
    board.of(side).at(off_place) = static_cast<std::uint8_t>(left);
  }
  return board;
}

/// The boards that the reference reaches for light, printed.
std::string reached(const Board& board, Roll roll) {
  std::string text;
  for (const Board& after : reference::results(board, Side::light, roll)) {
    const std::string both = to_text(after);
    text += both.substr(0, both.find(';')) + "\n";
  }
  return text;
}

// Each rule on a board small enough to see at a glance. Dark's checkers are written as dark counts:
// dark's 20-point is light's 5-point.

TEST(Reference, EitherDieFirst) {
  EXPECT_EQ(reached(board_with({{24, 1}}, {{6, 2}}), {2, 1}), "light 21x1 offx14\n");
}

TEST(Reference, BarFirst) {
  // 25-3 enters on the 22, 25-1 on the 24; then the other die, by either checker.
  EXPECT_EQ(reached(board_with({{25, 1}, {8, 1}}, {{6, 2}}), {3, 1}),
            "light 21x1 8x1 offx13\n"
            "light 22x1 7x1 offx13\n"
            "light 24x1 5x1 offx13\n");
}

TEST(Reference, NoPlayAgainstAClosedDoor) {
  // Dark holds its 6-point, light's 19: a 6 does not enter, so 6-6 is no play at all.
  EXPECT_EQ(reached(board_with({{25, 1}, {8, 1}}, {{6, 2}}), {6, 6}), "");
}

TEST(Reference, NoJumpThroughABlockedPoint) {
  // Light's 18 and 20 are closed, so neither half of 24/14 can be made, free though the 14 is.
  EXPECT_EQ(reached(board_with({{24, 1}}, {{7, 2}, {5, 2}}), {6, 4}), "");
}

TEST(Reference, BothDiceIfAnyPlayUsesBoth) {
  // 14/8 would leave no 4 (8/4 and 9/5 are closed); 14/10 and 9/3 uses both and so must be played.
  EXPECT_EQ(reached(board_with({{14, 1}, {9, 1}}, {{21, 2}, {20, 2}}), {6, 4}),
            "light 10x1 3x1 offx13\n");
}

TEST(Reference, TheLargerDieWhereOnlyOneCanBePlayed) {
  // 20/14 and 20/16 are open, 10 is closed: only one die, and it must be the 6.
  EXPECT_EQ(reached(board_with({{20, 1}}, {{15, 2}}), {6, 4}), "light 14x1 offx14\n");
}

TEST(Reference, AsManyOfADoubleAsPossible) {
  // 20/17/14, then the 11 is closed.
  EXPECT_EQ(reached(board_with({{20, 1}}, {{14, 2}}), {3, 3}), "light 14x1 offx14\n");
}

TEST(Reference, BearingOffFromTheHighestPointWithALargerDie) {
  EXPECT_EQ(reached(board_with({{4, 2}, {2, 1}}, {{6, 2}}), {6, 5}), "light 2x1 offx14\n");
  // With a checker on the 6-point the 5 may not bear off the 4 first: 6/1 and 4/off, or both off.
  EXPECT_EQ(reached(board_with({{6, 1}, {4, 1}}, {{6, 2}}), {6, 5}),
            "light 1x1 offx14\n"
            "light offx15\n");
}

TEST(Reference, NoBearingOffWithACheckerOutside) {
  EXPECT_EQ(reached(board_with({{7, 1}, {1, 1}}, {{19, 2}}), {1, 1}).find("offx15"),
            std::string::npos);
}

TEST(Reference, AHitSendsTheBlotToTheBar) {
  const auto boards =
      reference::results(board_with({{24, 1}}, {{4, 1}, {2, 1}}), Side::light, {2, 1});
  ASSERT_EQ(boards.size(), 2U);  // 24/23*/21* or 24/22/21*
  int most_hit = 0;
  for (const Board& board : boards) {
    EXPECT_EQ(board.count(Side::light, 21), 1);
    most_hit = std::max(most_hit, board.count(Side::dark, bar_place));
  }
  EXPECT_EQ(most_hit, 2);
}

// The comparison itself.

class Comparison : public testing::TestWithParam<Kind> {};

TEST_P(Comparison, GeneratorsAgreeOnRandomPositions) {
  reference::Trials trials(20'260'301);
  const int positions = scaled(5'000);
  for (int i = 0; i < positions; ++i) {
    ASSERT_EQ(reference::difference(trials.next(GetParam())), "") << "trial " << i;
  }
}

INSTANTIATE_TEST_SUITE_P(Reference, Comparison,
                         testing::Values(Kind::game, Kind::scattered, Kind::sparse,
                                         Kind::on_the_bar, Kind::bear_off),
                         [](const auto& kind) {
                           std::string name(reference::name(kind.param));
                           std::erase_if(name, [](char c) { return c == ' ' || c == '-'; });
                           return name;
                         });

TEST(Comparison, GeneratorsAgreeOnTinyBoards) {
  // Every board of one checker against up to two, and of two against one; every other one of them,
  // with every roll. compare_generators --tiny does them all.
  const int step = 200 / std::min(scaled(100), 200);
  int seen = 0;
  const auto agree = [&](const Board& board) {
    if (seen++ % step != 0) return true;
    for (const Roll roll : all_rolls()) {
      const std::string found = reference::difference({board, Side::light, roll});
      EXPECT_EQ(found, "");
      if (!found.empty()) return false;
    }
    return true;
  };
  reference::for_each_tiny_board(1, 2, agree);
  reference::for_each_tiny_board(2, 1, agree);
  EXPECT_GT(seen, 10'000);
}

TEST(Comparison, EveryBuildListsTheSamePlaysInTheSameOrder) {
  // Pinned on the day when 2,000,000 comparisons with the reference showed no difference.
  // bench_legal_plays prints it for more positions.
  const reference::Signature signature = reference::signature(1, 3'000);
  EXPECT_EQ(signature.plays, 56'958);
  EXPECT_EQ(signature.folded, 3'969'293'837'626'251'763U);
}

TEST(Comparison, RandomPositionsAreWhatTheyClaim) {
  reference::Trials trials(7);
  int with_bar = 0;
  int bearing_off = 0;
  for (int i = 0; i < 1'000; ++i) {
    for (int k = 0; k < reference::kind_count; ++k) {
      const auto trial = trials.next(static_cast<Kind>(k));
      for (const Side side : {Side::light, Side::dark}) {
        int checkers = 0;
        for (const int n : trial.board.of(side)) checkers += n;
        ASSERT_EQ(checkers, checkers_per_side);
        ASSERT_FALSE(has_won(trial.board, side));
        for (Place point = 1; point <= 24; ++point) {
          ASSERT_TRUE(trial.board.count(side, point) == 0 ||
                      trial.board.count(opponent(side), mirrored(point)) == 0);
        }
      }
      with_bar += trial.board.count(trial.side, bar_place) > 0 ? 1 : 0;
      bearing_off += all_home(trial.board, trial.side) ? 1 : 0;
    }
  }
  EXPECT_GT(with_bar, 500);
  EXPECT_GT(bearing_off, 500);
}

}  // namespace
}  // namespace pointwright

// Which must-play rule is in force, by position and against the list of legal plays.

#include "rules/obligation.hpp"

#include <gtest/gtest.h>

#include "tests/rules/random_positions.hpp"

namespace pointwright {
namespace {

using Kind = Obligation::Kind;

Obligation of(std::string_view line) {
  const auto position = read_position(line);
  EXPECT_TRUE(position) << line;
  return obligation(position->board, *position->turn, *position->roll);
}

std::string why(std::string_view line) {
  return explain_obligation(*read_position(line));
}

TEST(Obligation, BothDice) {
  constexpr auto line = "light 14x1 9x1 2x3 1x2; dark 21x2 20x2 6x3; light to play 6-4";
  EXPECT_EQ(of(line), (Obligation{Kind::both_dice, 2, 0, false}));
  EXPECT_EQ(why(line), "Both dice can be played, as in 14/10 9/3, so both must be.");
}

TEST(Obligation, TheLargerDieWhereEitherCouldBePlayed) {
  constexpr auto line = "light 12x1 3x2; dark 23x2 6x3; light to play 6-4";
  EXPECT_EQ(of(line), (Obligation{Kind::one_die, 1, 6, true}));
  EXPECT_EQ(
      why(line),
      "Either die can be played, but not both: after a 6 there is no legal 4, and after a 4 no "
      "legal 6. The larger must be played, the 6, as in 12/6.");
}

TEST(Obligation, TheSmallerDieWhereOnlyItCanBePlayed) {
  constexpr auto line = "light 12x1 3x2; dark 20x2 19x2 6x3; light to play 6-1";
  EXPECT_EQ(of(line), (Obligation{Kind::one_die, 1, 1, false}));
  EXPECT_EQ(why(line),
            "Only the 1 can be played, as in 12/11; no 6 is legal before it or after it.");
}

TEST(Obligation, PartOfADouble) {
  constexpr auto line = "light 13x1 2x3; dark 24x2 6x3; light to play 3-3";
  EXPECT_EQ(of(line), (Obligation{Kind::of_double, 3, 3, false}));
  EXPECT_EQ(why(line),
            "Three of the four 3s can be played, as in 13/4, and those three must be; no play uses "
            "more.");
}

TEST(Obligation, TheWholeDouble) {
  constexpr auto line = "light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; light to play 5-5";
  EXPECT_EQ(of(line), (Obligation{Kind::of_double, 4, 5, false}));
  EXPECT_EQ(why(line), "All four 5s can be played, as in 13/8(4), so all four must be.");
}

TEST(Obligation, NothingAtAll) {
  constexpr auto dances = "light barx1 6x5; dark 6x2 5x2 4x2 3x2 2x2 1x2; light to play 5-2";
  EXPECT_EQ(of(dances), Obligation{});
  constexpr auto stuck = "light 8x1 6x3; dark 24x2 23x2 22x2; light to play 6-5";
  EXPECT_EQ(of(stuck), Obligation{});
  EXPECT_EQ(
      why(stuck),
      "Light has no legal move: a 6 would have to land on light's 2, which dark holds, and no "
      "checker may be borne off yet; a 5 would have to land on light's 3 or 1, which dark holds "
      "each time.");
}

TEST(Obligation, AgreesWithTheLegalPlaysOnRandomBoards) {
  std::mt19937_64 random(11);
  for (int i = 0; i < 20'000; ++i) {
    const Board board = testing::random_board(random);
    const Roll roll = all_rolls()[random() % 21];
    const Side side = random() % 2 == 0 ? Side::light : Side::dark;
    const auto plays = legal_plays(board, side, roll);
    const Obligation duty = obligation(board, side, roll);
    ASSERT_EQ(duty.kind == Kind::none, plays.empty());
    for (const LegalPlay& play : plays) ASSERT_EQ(play.play.size(), duty.moves);
    if (duty.kind == Kind::none) {
      ASSERT_FALSE(can_play(board, side, roll.high()));
      ASSERT_FALSE(can_play(board, side, roll.low()));
    }
    if (duty.kind == Kind::one_die) {
      ASSERT_FALSE(roll.is_double());
      ASSERT_TRUE(can_play(board, side, duty.die));
      ASSERT_EQ(duty.either,
                can_play(board, side, roll.high()) && can_play(board, side, roll.low()));
      if (duty.either) ASSERT_EQ(duty.die, roll.high());
      // Each legal play is a move of that die: exact, or bearing off with a larger one.
      for (const LegalPlay& play : plays) {
        const Move& move = play.play[0];
        ASSERT_TRUE(move.from - move.to == duty.die ||
                    (move.to == off_place && move.from < duty.die));
      }
    }
  }
}

}  // namespace
}  // namespace pointwright

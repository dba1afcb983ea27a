#include <gtest/gtest.h>

#include <algorithm>

#include "rules/notation.hpp"
#include "rules/play.hpp"
#include "tests/rules/random_positions.hpp"

namespace pointwright {
namespace {

std::vector<std::string> plays(std::string_view line) {
  const auto position = read_position(line);
  EXPECT_TRUE(position) << line;
  std::vector<std::string> result;
  for (const LegalPlay& legal : legal_plays(position->board, *position->turn, *position->roll))
    result.push_back(to_text(legal.play));
  std::sort(result.begin(), result.end());
  return result;
}

using Texts = std::vector<std::string>;

TEST(LegalPlays, BarComesFirst) {
  EXPECT_EQ(plays("light barx1 6x1; dark 4x2; light to play 3-1"),
            (Texts{"bar/22 6/5", "bar/24 6/3"}));
}

TEST(LegalPlays, DancesBehindTwoClosedPoints) {
  EXPECT_EQ(plays("light barx1 6x1; dark 3x2 1x2; light to play 3-1"), Texts{});
}

TEST(LegalPlays, UsesBothDiceIfAnyPlayDoes) {
  // 24/14 is blocked at its end, 9/3 and 9/5 alone would waste a die.
  EXPECT_EQ(plays("light 24x1 9x1; dark 11x2; light to play 6-4"),
            (Texts{"24/18 9/5", "24/20 9/3"}));
}

TEST(LegalPlays, PrefersTheLargerDieWhenOnlyOneCanBePlayed) {
  EXPECT_EQ(plays("light 12x1; dark 23x2; light to play 6-4"), Texts{"12/6"});
}

TEST(LegalPlays, PlaysAsManyOfADoubleAsPossible) {
  EXPECT_EQ(plays("light 13x2; dark 20x2; light to play 4-4"), Texts{"13/9(2)"});
}

TEST(LegalPlays, BearsOffWithALargerDieOnlyFromTheHighestPoint) {
  EXPECT_EQ(plays("light 4x1 2x1; dark 1x1; light to play 6-3"),
            (Texts{"4/1 2/off", "4/off 2/off"}));
}

TEST(LegalPlays, PrintsHitsAndRepeats) {
  EXPECT_EQ(plays("light 8x2; dark 20x1 23x2; light to play 3-3"), Texts{"8/5*(2)"});
}

TEST(Moves, AreUndoneExactly) {
  std::mt19937_64 random(3);
  for (int i = 0; i < 3000; ++i) {
    const Board board = testing::random_board(random);
    const Roll roll(1 + static_cast<int>(random() % 6), 1 + static_cast<int>(random() % 6));
    for (const LegalPlay& legal : legal_plays(board, Side::light, roll)) {
      ASSERT_EQ(after(board, Side::light, legal.play), legal.after);
      ASSERT_EQ(before(legal.after, Side::light, legal.play), board);
    }
  }
}

TEST(LegalPlays, AreTheSameForTheOtherSide) {
  std::mt19937_64 random(4);
  for (int i = 0; i < 3000; ++i) {
    const Board board = testing::random_board(random);
    const Roll roll(1 + static_cast<int>(random() % 6), 1 + static_cast<int>(random() % 6));
    const auto light = legal_plays(board, Side::light, roll);
    const auto dark = legal_plays(swapped(board), Side::dark, roll);
    ASSERT_EQ(light.size(), dark.size());
    for (std::size_t k = 0; k < light.size(); ++k) {
      ASSERT_EQ(light[k].play, dark[k].play);
      ASSERT_EQ(light[k].after, swapped(dark[k].after));
    }
  }
}

struct BadPlay {
  const char* text;
  const char* id;
};

void PrintTo(const BadPlay& bad, std::ostream* out) {
  *out << bad.text;
}

class BadPlays : public ::testing::TestWithParam<BadPlay> {};

TEST_P(BadPlays, AreNamed) {
  const auto attempt = read_play(GetParam().text);
  ASSERT_FALSE(attempt) << GetParam().text;
  EXPECT_EQ(attempt.error().front().id, GetParam().id) << attempt.error().front().reason;
  EXPECT_FALSE(attempt.error().front().fix.empty());
}

INSTANTIATE_TEST_SUITE_P(
    Each, BadPlays,
    ::testing::Values(BadPlay{"", "play-empty"}, BadPlay{"13", "move-incomplete"},
                      BadPlay{"13/25", "no-such-point"}, BadPlay{"13/x", "no-such-place"},
                      BadPlay{"off/3", "starts-off"}, BadPlay{"13/bar", "ends-on-bar"},
                      BadPlay{"13*/8", "star-misplaced"}, BadPlay{"3/off*", "star-misplaced"},
                      BadPlay{"3/off/1", "moves-after-off"}, BadPlay{"13/8(5)", "bad-repeat"},
                      BadPlay{"13/8(2", "bad-repeat"}, BadPlay{"9/8/7/6/5/4/3", "too-many-stops"},
                      BadPlay{"8/7(4) 8/7(4) 8/7(4) 8/7(4) 8/7", "too-many-moves"}));

TEST(Notation, ReadsLiberally) {
  const auto attempt = read_play(" 13/7,BAR/20* 8/5 (2) 24/18/14");
  ASSERT_TRUE(attempt);
  ASSERT_EQ(attempt->journeys.size(), 5U);
  EXPECT_EQ(attempt->journeys[0].stops, (std::vector<Place>{13, 7}));
  EXPECT_EQ(attempt->journeys[1].stops, (std::vector<Place>{bar_place, 20}));
  EXPECT_TRUE(attempt->journeys[1].hits[1]);
  EXPECT_EQ(attempt->journeys[3].stops, (std::vector<Place>{8, 5}));
  EXPECT_EQ(attempt->journeys[4].stops, (std::vector<Place>{24, 18, 14}));
  EXPECT_TRUE(read_play("no play")->journeys.empty());
}

TEST(Notation, DistinctResultsHaveDistinctTexts) {
  std::mt19937_64 random(5);
  for (int i = 0; i < 3000; ++i) {
    const Board board = testing::random_board(random);
    const Roll roll(1 + static_cast<int>(random() % 6), 1 + static_cast<int>(random() % 6));
    Texts texts;
    for (const LegalPlay& legal : legal_plays(board, Side::light, roll)) {
      texts.push_back(to_text(legal.play));
      ASSERT_TRUE(read_play(texts.back())) << texts.back();
    }
    std::sort(texts.begin(), texts.end());
    ASSERT_EQ(std::adjacent_find(texts.begin(), texts.end()), texts.end()) << to_text(board);
  }
}

}  // namespace
}  // namespace pointwright

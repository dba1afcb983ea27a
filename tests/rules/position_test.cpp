#include "rules/position.hpp"

#include <gtest/gtest.h>

#include "rules/setup.hpp"
#include "tests/rules/random_positions.hpp"

namespace pointwright {
namespace {

const char* const start = "light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5";

Position read(std::string_view text) {
  const auto position = read_position(text);
  EXPECT_TRUE(position) << text;
  return position ? *position : Position{};
}

TEST(PositionLine, ReadsTheStartingPosition) {
  EXPECT_EQ(read(start).board, starting_board());
  EXPECT_EQ(to_text(starting_board()), start);
}

TEST(PositionLine, ReadsEveryPart) {
  const Position position = read(
      "light barx1 13x4 6x5; dark 24x2 20x2 6x6; light to play 1-3; cube 2 with dark; "
      "match to 7 score 3-5; house jacoby no-gammons");
  EXPECT_EQ(position.board.count(Side::light, bar_place), 1);
  EXPECT_EQ(position.board.count(Side::light, off_place), 5);
  EXPECT_EQ(position.turn, Side::light);
  EXPECT_EQ(position.roll, Roll(3, 1));
  EXPECT_EQ(position.cube, (Cube{2, Side::dark}));
  EXPECT_EQ(position.match, (MatchScore{7, {3, 5}, false}));
  EXPECT_TRUE(position.house.jacoby);
  EXPECT_FALSE(position.house.gammons);
  EXPECT_EQ(to_text(position),
            "light barx1 13x4 6x5 offx5; dark 24x2 20x2 6x6 offx5; light to play 3-1; "
            "cube 2 with dark; match to 7 score 3-5; house no-gammons jacoby");
}

TEST(PositionLine, ReadsTheUrlForm) {
  const Position position = read("LIGHT_13x1;DARK_offx15");
  EXPECT_EQ(to_url_text(position), "light_13x1_offx14;_dark_offx15");
  EXPECT_EQ(read(to_url_text(position)), position);
}

TEST(PositionLine, ReadingAndPrintingAreInverse) {
  std::mt19937_64 random(1);
  for (int i = 0; i < 20000; ++i) {
    const Position position = testing::random_position(random);
    const std::string text = to_text(position);
    const auto again = read_position(text);
    ASSERT_TRUE(again) << text << ": " << again.error().front().reason;
    ASSERT_EQ(*again, position) << text;
    ASSERT_EQ(*read_position(to_url_text(position)), position) << text;
    ASSERT_EQ(hash(*again), hash(position));
  }
}

struct BadLine {
  const char* text;
  const char* id;
  const char* at;  ///< the faulty part of the text
};

void PrintTo(const BadLine& bad, std::ostream* out) {
  *out << bad.text;
}

class BadLines : public ::testing::TestWithParam<BadLine> {};

TEST_P(BadLines, NameThePartTheReasonAndTheFix) {
  const auto& [text, id, at] = GetParam();
  const auto position = read_position(text);
  ASSERT_FALSE(position) << text;
  const Fault& fault = position.error().front();
  EXPECT_EQ(fault.id, id) << fault.reason;
  EXPECT_EQ(std::string_view(text).substr(fault.where.begin, fault.where.end - fault.where.begin),
            at);
  EXPECT_FALSE(fault.reason.empty());
  EXPECT_FALSE(fault.fix.empty());
}

INSTANTIATE_TEST_SUITE_P(
    Each, BadLines,
    ::testing::Values(
        BadLine{"", "empty-part", ""}, BadLine{"light 13x1", "side-missing", ""},
        BadLine{"light 13x1; ; dark 13x1", "empty-part", " "},
        BadLine{"light 13x1; dark 13x1; blue 3x1", "unknown-part", "blue"},
        BadLine{"light 13x1; light 12x1; dark 13x1", "part-twice", "light 12x1"},
        BadLine{"light; dark 13x1", "side-empty", "light"},
        BadLine{"light 25x1; dark 13x1", "no-such-point", "25"},
        BadLine{"light 0x1; dark 13x1", "no-such-point", "0"},
        BadLine{"light thirteen; dark 13x1", "no-such-place", "thirteen"},
        BadLine{"light 13; dark 13x1", "count-missing", "13"},
        BadLine{"light 24x1 off 14; dark 13x1", "count-missing", "off 14"},
        BadLine{"light bar 2; dark 13x1", "count-missing", "bar 2"},
        BadLine{"light 13 x5; dark 13x1", "count-missing", "13 x5"},
        BadLine{"light 13x0; dark 13x1", "no-such-count", "0"},
        BadLine{"light 13xa; dark 13x1", "no-such-count", "a"},
        BadLine{"light 13x1 13x2; dark 13x1", "place-twice", "13x2"},
        BadLine{"light 13x16; dark 13x1", "too-many-checkers", "light 13x16"},
        BadLine{"light 13x1 offx2; dark 13x1", "off-disagrees", "offx2"},
        BadLine{"light 13x1; dark 12x1", "shared-point", "12x1"},
        BadLine{"light offx15; dark offx15", "both-off", "dark offx15"},
        BadLine{"light offx15; dark 1x1; dark to roll", "game-over", "dark to roll"},
        BadLine{"light 13x1; dark 13x1; light to play 7-1", "no-such-die", "light to play 7-1"},
        BadLine{"light 13x1; dark 13x1; light to play 31", "dice-unclear", "31"},
        BadLine{"light 13x1; dark 13x1; light to dance", "turn-unclear", "light to dance"},
        BadLine{"light 13x1; dark 13x1; cube 3 centred", "no-such-cube", "cube 3 centred"},
        BadLine{"light 13x1; dark 13x1; cube 2305843009213693952 centred", "no-such-cube",
                "cube 2305843009213693952 centred"},
        BadLine{"light 13x1; dark 13x1; cube 1 with dark", "cube-held-at-one", "cube 1 with dark"},
        BadLine{"light 13x1; dark 13x1; cube two", "cube-unclear", "cube two"},
        BadLine{"light 13x1; dark 13x1; cube 2 centred; house no-cube", "cube-not-in-use",
                "cube 2 centred"},
        BadLine{"light 13x1; dark 13x1; match to 0 score 0-0", "no-such-match",
                "match to 0 score 0-0"},
        BadLine{"light 13x1; dark 13x1; match to 5 score 5-0", "match-over",
                "match to 5 score 5-0"},
        BadLine{"light 13x1; dark 13x1; match to 5 score 3-0 crawford", "no-crawford-game",
                "match to 5 score 3-0 crawford"},
        BadLine{"light 13x1; dark 13x1; cube 2 centred; match to 5 score 4-0 crawford",
                "cube-in-crawford-game", "cube 2 centred"},
        BadLine{"light 13x1; dark 13x1; match 5", "match-unclear", "match 5"},
        BadLine{"light 13x1; dark 13x1; house", "house-empty", "house"},
        BadLine{"light 13x1; dark 13x1; house jacobi", "no-such-house-rule", "jacobi"}));

TEST(PositionLine, RefusesAbsurdLength) {
  const auto position = read_position(std::string(100000, 'x'));
  ASSERT_FALSE(position);
  EXPECT_EQ(position.error().front().id, "line-too-long");
}

TEST(PositionLine, ReportsAllFaultsAtOnce) {
  const auto position = read_position("light 25x1 13xx; dark 7; light to play 9-9");
  ASSERT_FALSE(position);
  EXPECT_EQ(position.error().size(), 3U);
}

TEST(SetupValidation, RefusesWhatNoLineCanSay) {
  pointwright::Setup setup;  // gtest has a Setup too
  setup.camps[0][3] = -1;
  setup.camps[1][1] = 1;
  setup.dice = {1, 2};
  const auto position = validate(setup);
  ASSERT_FALSE(position);
  std::vector<std::string_view> ids;
  for (const SetupFault& fault : position.error()) ids.push_back(fault.id);
  EXPECT_EQ(ids, (std::vector<std::string_view>{"negative-count", "dice-without-turn"}));
}

TEST(Board, CountsPipsAndContact) {
  // 167 pips each at the start: common practice, 2*24 + 5*13 + 3*8 + 5*6.
  EXPECT_EQ(pip_count(starting_board(), Side::light), 167);
  EXPECT_TRUE(has_contact(starting_board()));
  EXPECT_EQ(pip_count(read("light barx2; dark 3x1").board, Side::light), 50);
  EXPECT_FALSE(has_contact(read("light 12x1; dark 12x1").board));
  EXPECT_TRUE(has_contact(read("light 13x1; dark 13x1").board));
  EXPECT_FALSE(has_contact(read("light offx15; dark 24x1").board));
}

TEST(Board, HashTellsBoardsApart) {
  std::mt19937_64 random(2);
  for (int i = 0; i < 1000; ++i) {
    const Board board = testing::random_board(random);
    EXPECT_EQ(swapped(swapped(board)), board);
    if (swapped(board) == board) continue;
    EXPECT_NE(hash(swapped(board)), hash(board));
  }
}

}  // namespace
}  // namespace pointwright

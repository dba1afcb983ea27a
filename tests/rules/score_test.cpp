// What a finished game is worth, and what it makes of a match.

#include "rules/score.hpp"

#include <gtest/gtest.h>

#include <set>
#include <string>
#include <vector>

#include "rules/setup.hpp"

namespace pointwright {
namespace {

/// A finished board: the winner is off, the loser has one checker on `place`, `off` borne off and
/// the rest on its own 6-point.
Board finished(Side winner, Place place, int off) {
  Board board;
  board.of(winner)[off_place] = checkers_per_side;
  Camp& loser = board.of(opponent(winner));
  loser[off_place] = static_cast<std::uint8_t>(off);
  loser[6] = static_cast<std::uint8_t>(checkers_per_side - 1 - off);
  ++loser[place];
  return board;
}

// Gammon: the loser has borne off none. Backgammon: and has a checker on the bar or in the winner's
// home board, which is the loser's 19 to 24. (Common practice, every rule book.)
TEST(WinKind, EveryPlaceOfTheLastStragglerAndEveryCountBorneOff) {
  for (const Side winner : {Side::light, Side::dark}) {
    for (Place place = 1; place <= bar_place; ++place) {
      for (int off = 0; off < checkers_per_side; ++off) {
        const Board board = finished(winner, place, off);
        const WinKind expected = off > 0       ? WinKind::single
                                 : place >= 19 ? WinKind::backgammon
                                               : WinKind::gammon;
        ASSERT_EQ(winner_of(board), winner);
        ASSERT_EQ(win_kind(board), expected) << int{place} << " off " << off;
      }
    }
  }
}

TEST(WinKind, NothingWhileTheGameGoesOn) {
  EXPECT_EQ(winner_of(starting_board()), std::nullopt);
  EXPECT_EQ(win_kind(starting_board()), std::nullopt);
  Position position;
  position.board = starting_board();
  EXPECT_EQ(result_of(position), std::nullopt);
}

TEST(WinKind, Names) {
  EXPECT_EQ(name(WinKind::single), "single");
  EXPECT_EQ(name(WinKind::gammon), "gammon");
  EXPECT_EQ(name(WinKind::backgammon), "backgammon");
}

/// Points by a table of cases: what multiplies the cube. Written apart from the library's reading.
std::uint64_t expected_factor(WinKind kind, const HouseRules& house, bool match, bool turned) {
  if (!house.gammons) return 1;
  if (house.jacoby && house.cube && !match && !turned) return 1;
  if (kind == WinKind::backgammon) return 3;
  return kind == WinKind::gammon ? 2 : 1;
}

TEST(Points, EveryResultUnderEveryHouseRuleAtEveryCube) {
  int cases = 0;
  for (unsigned bits = 0; bits < 64; ++bits) {
    HouseRules house;
    house.cube = (bits & 1U) != 0;
    house.gammons = (bits & 2U) != 0;
    house.jacoby = (bits & 4U) != 0;
    house.automatic_doubles = (bits & 8U) != 0;
    house.beavers = (bits & 16U) != 0;
    house.premature_roll_stands = (bits & 32U) != 0;
    for (const bool match : {false, true}) {
      for (std::uint64_t value = 1; value <= largest_cube; value *= 2) {
        for (const bool turned : {false, true}) {
          if (!house.cube && (value > 1 || turned)) continue;
          if (value == 1 && turned) continue;
          for (const Place straggler : {Place{1}, Place{10}, bar_place}) {
            Position position;
            position.house = house;
            position.cube = {value, turned ? std::optional(Side::dark) : std::nullopt};
            if (match) position.match = new_match(7);
            position.board = finished(Side::light, straggler, straggler == 1 ? 1 : 0);
            const auto result = result_of(position);
            ASSERT_TRUE(result);
            ASSERT_EQ(result->points, value * expected_factor(result->kind, house, match, turned));
            ASSERT_EQ(result->winner, Side::light);
            ASSERT_FALSE(result->dropped);
            ++cases;
          }
        }
      }
    }
  }
  EXPECT_EQ(cases, 3 * 2 * (32 * (61 + 60) + 32));
}

TEST(Points, ADropCostsTheValueBeforeTheOffer) {
  for (std::uint64_t value = 1; value <= largest_cube; value *= 2) {
    for (const Side loser : {Side::light, Side::dark}) {
      Position position;
      position.board = starting_board();
      position.cube.value = value;
      const GameResult result = result_of_drop(position, loser);
      EXPECT_EQ(result, (GameResult{opponent(loser), WinKind::single, true, value}));
    }
  }
}

Position position_of(std::string_view line) {
  const auto position = read_position(line);
  EXPECT_TRUE(position.ok()) << line << ": " << (position.ok() ? "" : position.error()[0].reason);
  return position.ok() ? *position : Position{};
}

std::string proof_of(std::string_view line, const SideNames& names = {}) {
  const Position position = position_of(line);
  const auto result = result_of(position);
  return result ? explain(*result, position, names) : "no result";
}

TEST(Points, TheProofSaysWhatWasCounted) {
  EXPECT_EQ(proof_of("light offx15; dark 3x2 2x1; cube 4 with dark"),
            "light has borne off all fifteen checkers. dark has borne off 12, so it is a single "
            "game. With the cube at 4 it is worth 4 points.");
  EXPECT_EQ(proof_of("light offx15; dark 13x2 8x3 6x10; cube 2 with light"),
            "light has borne off all fifteen checkers. dark has borne off none, and none of its "
            "checkers is on the bar or in light's home board: a gammon, which counts twice. With "
            "the cube at 2 it is worth 4 points.");
  EXPECT_EQ(proof_of("light offx15; dark 22x1 13x4 6x10", {{"Ivory", "Walnut"}}),
            "Ivory has borne off all fifteen checkers. Walnut has borne off none and still has a "
            "checker on Ivory's 3-point, in Ivory's home board: a backgammon, which counts three "
            "times. With the cube at 1 it is worth 3 points.");
  EXPECT_EQ(proof_of("light barx1 6x14; dark offx15; house jacoby"),
            "dark has borne off all fifteen checkers. light has borne off none and still has a "
            "checker on the bar: a backgammon. By the Jacoby rule it counts once, since the cube "
            "has not been turned. With the cube at 1 it is worth 1 point.");
  EXPECT_EQ(proof_of("light 6x15; dark offx15; match to 5 score 0-0; house jacoby"),
            "dark has borne off all fifteen checkers. light has borne off none, and none of its "
            "checkers is on the bar or in dark's home board: a gammon, which counts twice (the "
            "Jacoby rule is not used in a match). With the cube at 1 it is worth 2 points.");
  EXPECT_EQ(proof_of("light 6x15; dark offx15; house no-cube no-gammons"),
            "dark has borne off all fifteen checkers. light has borne off none, and none of its "
            "checkers is on the bar or in dark's home board: a gammon. By the house rule "
            "no-gammons it counts once. Played without the cube, it is worth 1 point.");
}

TEST(Points, TheProofOfADrop) {
  const Position position = position_of("light 6x15; dark 6x15; light to roll; cube 8 with light");
  EXPECT_EQ(explain(result_of_drop(position, Side::dark), position),
            "dark dropped the cube, so light wins 8 points, the value that the cube had before "
            "that offer.");
}

// The match.

/// A match with its whole history remembered, so that the Crawford game is known by definition: the
/// first game that begins with a side one point away, having come there.
struct History {
  int light = 0;
  int dark = 0;
  bool crawford_played = false;
  bool crawford_now = false;
  auto operator<=>(const History&) const = default;
};

TEST(Match, CrawfordGameInEveryMatchToTwentyFive) {
  std::size_t states = 0;
  for (int length = 1; length <= 25; ++length) {
    std::set<History> seen;
    std::vector<History> open{History{}};
    seen.insert(History{});
    while (!open.empty()) {
      const History now = open.back();
      open.pop_back();
      const MatchScore score{length, {now.light, now.dark}, now.crawford_now};
      ASSERT_FALSE(match_over(score));
      for (const Side winner : {Side::light, Side::dark}) {
        for (int points = 1; points <= length + 2; ++points) {
          History then = now;
          then.crawford_played = now.crawford_played || now.crawford_now;
          int& total = winner == Side::light ? then.light : then.dark;
          total = total + points > length ? length : total + points;
          const bool over = total == length;
          then.crawford_now = !over && !then.crawford_played && length > 1 &&
                              (then.light == length - 1 || then.dark == length - 1);
          const MatchScore next = after_game(score, winner, static_cast<std::uint64_t>(points));
          ASSERT_EQ(next, (MatchScore{length, {then.light, then.dark}, then.crawford_now}));
          ASSERT_EQ(match_over(next), over);
          ASSERT_EQ(match_winner(next), over ? std::optional(winner) : std::nullopt);
          if (!over && seen.insert(then).second) open.push_back(then);
        }
      }
    }
    states += seen.size();
  }
  EXPECT_GT(states, 5000U);
}

TEST(Match, EveryScoreThatFollowsIsAValidPosition) {
  for (int length = 1; length <= 25; ++length) {
    for (int light = 0; light < length; ++light) {
      for (int dark = 0; dark < length; ++dark) {
        for (std::uint64_t points = 1; points <= 8; ++points) {
          const MatchScore next = after_game({length, {light, dark}, false}, Side::dark, points);
          if (match_over(next)) continue;
          pointwright::Setup setup;
          setup.camps[0][6] = setup.camps[1][6] = 15;
          setup.match = next;
          ASSERT_TRUE(validate(setup).ok()) << length << ": " << light << "-" << dark;
        }
      }
    }
  }
}

TEST(Match, PointsBeyondAnyIntegerAreNotCounted) {
  const MatchScore next = after_game({7, {3, 6}, false}, Side::light, 3 * largest_cube);
  EXPECT_EQ(next.points[0], 7);
  EXPECT_EQ(match_winner(next), Side::light);
}

TEST(Match, TheProofSaysWhatComesNext) {
  EXPECT_EQ(explain(MatchScore{7, {3, 5}, false}, Side::light, 3),
            "light had 3 and wins 3 points, which makes 6. light is within one point of the match "
            "for the first time, so the next game is the Crawford game: nobody doubles in it.");
  EXPECT_EQ(explain(MatchScore{7, {3, 6}, true}, Side::light, 1),
            "light had 3 and wins 1 point, which makes 4. The Crawford game has been played, so "
            "the cube is in use again.");
  EXPECT_EQ(explain(MatchScore{7, {0, 0}, false}, Side::dark, 4, {{"Ivory", "Walnut"}}),
            "Walnut had 0 and wins 4 points, which makes 4. Neither side is within one point of "
            "the match, so the cube is in use.");
  EXPECT_EQ(explain(MatchScore{7, {3, 5}, false}, Side::dark, 2),
            "dark had 5 and wins 2 points, which makes 7: dark wins the match to 7.");
  EXPECT_EQ(explain(MatchScore{7, {3, 5}, false}, Side::dark, 4),
            "dark had 5 and wins 4 points, which makes more than 7: dark wins the match to 7. "
            "Points beyond the length of the match are not counted.");
}

}  // namespace
}  // namespace pointwright

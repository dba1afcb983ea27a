#include "chance/next_roll.hpp"

#include <gtest/gtest.h>

#include <random>

#include "rules/position.hpp"
#include "tests/rules/random_positions.hpp"

namespace pointwright::chance {
namespace {

Board board(std::string_view line) {
  const auto position = read_position(line);
  EXPECT_TRUE(position) << line;
  return position->board;
}

int ways(std::string_view line, std::string_view text, Side side = Side::light) {
  const auto query = read_query(text);
  EXPECT_TRUE(query) << text;
  return count(NextRoll(board(line), side), *query).ways;
}

std::string line(Place light, Place lights_view_of_dark) {
  return "light " + std::to_string(light) + "x1; dark " +
         std::to_string(mirrored(lights_view_of_dark)) + "x1";
}

// Source: Encyclopaedia Britannica, 9th edition, "Backgammon" (odds table), for 1 to 12 pips; from
// 13 to 23 by exact count (shared with the table of outside values).
TEST(Shots, AgreeWithTheOddsTable) {
  const int expected[] = {0, 11, 12, 14, 15, 15, 17, 6, 6, 5, 3, 2,
                          3, 0,  0,  1,  1,  0,  1,  0, 1, 0, 0, 0};
  for (int distance = 1; distance <= 23; ++distance) {
    const auto text = line(24, static_cast<Place>(24 - distance));
    EXPECT_EQ(ways(text, "hit"), expected[distance]) << text;
  }
  // 24 pips away: from the bar to the 1-point.
  EXPECT_EQ(ways("light barx1; dark 24x1", "hit"), 1);
}

// Source: Jacoby and Crawford, The Backgammon Book, 1970, ch. 4: (36 - k^2)/36 against k points.
TEST(Entering, AgreesWithTheClosedPointTable) {
  std::string closed;
  for (int k = 1; k <= 6; ++k) {
    closed += " " + std::to_string(k) + "x2";
    EXPECT_EQ(ways("light barx1; dark" + closed, "enter"), 36 - k * k) << k;
    EXPECT_EQ(ways("light barx1; dark" + closed, "dance"), k * k) << k;
  }
}

TEST(Events, HoldWhenTheySayTheyDo) {
  EXPECT_EQ(ways("light barx2; dark 1x2", "enter-all"), 25);
  EXPECT_EQ(ways("light barx2; dark 1x2", "enter-none"), 1);
  EXPECT_EQ(ways("light 8x1 6x1; dark 3x1", "point 5"), 2 + 1);  // 3-1, and 1-1 with three ones
  // With 3-x the x must be played too, which breaks the pair again: only 2-1 covers.
  EXPECT_EQ(ways("light 8x1 5x1; dark 3x1", "cover 5"), 2);
  // 2-1, 3-2, 4-3 and 5-4 bring the two together.
  EXPECT_EQ(ways("light 24x1 23x1; dark 13x1", "anchor"), 8);
  EXPECT_EQ(ways("light 6x2; dark 1x1", "off 2"), 4);  // 6-6, 5-5, 4-4 and 3-3
  EXPECT_EQ(ways("light 1x2; dark 1x1", "off-all"), 36);
  EXPECT_EQ(ways("light 2x1 1x1; dark 1x1", "off-all"), 36);
  // All but 1-1, 2-1 and 3-1 move five pips or more.
  EXPECT_EQ(ways("light 24x1; dark 13x1", "escape 20"), 31);
}

TEST(Events, AskOfAnyEveryOrNoPlay) {
  const char* const line = "light 13x1 8x1; dark 18x1";  // the blot stands on light's 7
  const int can = ways(line, "hit");
  EXPECT_EQ(can, 20 + 2 + 1 + 1);  // any 1 or 6; 4-2; 3-3; 2-2
  EXPECT_EQ(ways(line, "cannot hit"), 36 - can);
  EXPECT_LE(ways(line, "must hit"), can);
  EXPECT_EQ(ways(line, "must not hit"), ways(line, "cannot hit"));
}

TEST(Events, CountsAreConsistentOnRandomBoards) {
  std::mt19937_64 random(11);
  for (int i = 0; i < 300; ++i) {
    const NextRoll next(pointwright::testing::random_board(random), Side::light);
    for (const CardLine& line : card(next)) {
      const Query cannot{Query::Mode::cannot, line.query.event};
      const Query must{Query::Mode::must, line.query.event};
      EXPECT_EQ(line.count.ways + count(next, cannot).ways, 36);
      EXPECT_LE(count(next, must).ways, line.count.ways);
      int marked = 0;
      for (const auto& row : line.count.grid)
        marked += static_cast<int>(std::count(row.begin(), row.end(), true));
      EXPECT_EQ(marked, line.count.ways);
      EXPECT_FALSE(explain(next, line.query).empty());
    }
  }
}

TEST(Queries, AreReadAndPrintedBack) {
  for (const std::string_view text :
       {"hit", "hit 5 and safe", "must (hit or point 5)", "cannot (not safe and no-direct-shot)",
        "(hit or dance) and forced", "off 2", "not (hit and safe)"}) {
    const auto query = read_query(text);
    ASSERT_TRUE(query) << text;
    const auto again = read_query(to_text(*query));
    ASSERT_TRUE(again) << to_text(*query);
    EXPECT_EQ(to_text(*again), to_text(*query));
  }
  EXPECT_EQ(to_text(*read_query("CAN Hit  5 AND safe")), "hit 5 and safe");
}

TEST(Queries, FaultsNameThePlace) {
  const struct {
    std::string_view text, id, at;
  } cases[] = {{"", "event-missing", ""},
               {"hitt", "no-such-event", "hitt"},
               {"hit 25", "argument-out-of-range", "25"},
               {"point", "argument-missing", "point"},
               {"dance 3", "argument-unwanted", "3"},
               {"hit safe", "event-continues", "safe"},
               {"(hit", "bracket-open", ""},
               {"hit and", "event-missing", ""},
               {"off 5", "argument-out-of-range", "5"}};
  for (const auto& bad : cases) {
    const auto query = read_query(bad.text);
    ASSERT_FALSE(query) << bad.text;
    const Fault& fault = query.error().front();
    EXPECT_EQ(fault.id, bad.id) << bad.text;
    EXPECT_EQ(bad.text.substr(fault.where.begin, fault.where.end - fault.where.begin), bad.at);
    EXPECT_FALSE(fault.fix.empty());
  }
  EXPECT_EQ(read_query(std::string(600, '(')).error().front().id, "query-too-long");
  EXPECT_EQ(read_query(std::string(60, '(')).error().front().id, "nested-too-deeply");
}

TEST(Explanations, ReadAsATeacherWouldSayThem) {
  const NextRoll next(board("light 10x1 8x1; dark 19x1 18x2"), Side::light);
  EXPECT_EQ(explain(next, *read_query("hit")),
            "light can hit a blot with 22 of the 36 rolls: 20 that show a 2 or a 4, and 2 as 3-1. "
            "That is 11/18. With nothing in the way it would be 23: 1-1 is blocked.");
  EXPECT_EQ(explain(next, *read_query("dance")), "light can dance with 0 of the 36 rolls.");
}

// A no of Event::possible is certain: whatever some play of some roll brings about was possible.
TEST(Events, ThatALookAtTheBoardRulesOutNeverHappen) {
  std::mt19937_64 random(11);  // NOLINT(*-msc51-cpp): the same positions every time
  int ruled_out = 0;
  for (int trial = 0; trial < 300; ++trial) {
    const Board board = pointwright::testing::random_board(random);
    const NextRoll next(board, Side::light);
    for (const EventKind& kind : event_kinds()) {
      for (int argument = 0; argument <= 24; ++argument) {
        const bool takes_none = kind.argument == EventKind::Argument::none;
        if (takes_none ? argument > 0
                       : argument == 0 && kind.argument != EventKind::Argument::optional_point)
          continue;
        const Event event = Event::simple(kind, argument);
        if (event.possible(board, Side::light)) continue;
        ++ruled_out;
        EXPECT_EQ(count(next, Query{Query::Mode::can, event}).ways, 0)
            << kind.name << " " << argument;
      }
    }
  }
  EXPECT_GT(ruled_out, 1000);
}

}  // namespace
}  // namespace pointwright::chance

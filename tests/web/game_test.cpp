// A record of a game and what follows from it.
#include "web/game.hpp"

#include <gtest/gtest.h>

#include "rules/notation.hpp"

namespace pointwright::web {
namespace {

TEST(Record, AnEmptyOneIsANewGame) {
  const Replay followed = replay("");
  EXPECT_FALSE(followed.fault);
  EXPECT_EQ(followed.so_far.table, new_game());
}

TEST(Record, LeadsToTheTableOfTheRules) {
  const Replay followed = replay(
      "match 5\n"
      "names Ivory | Walnut\n"
      "\n"
      "# a word in between\n"
      "opening 3 1\n"
      "move 8/5\n"
      "move 6/5\n"
      "lift\n"
      "offer\n"
      "take\n"
      "throw 6 4\n");
  ASSERT_FALSE(followed.fault);
  const GameSoFar& game = followed.so_far;
  EXPECT_EQ(game.names[Side::dark], "Walnut");
  EXPECT_EQ(to_text(game.table.position),
            "light 24x2 13x5 8x2 6x4 5x2; dark 24x2 13x5 8x3 6x5; dark to play 6-4; cube 2 with "
            "light; match to 5 score 0-0");
  ASSERT_EQ(game.sheet.size(), 3U);
  EXPECT_EQ(game.sheet[0].text, "3-1: 8/5 6/5");
  EXPECT_EQ(game.sheet[0].line, 7U);
  EXPECT_EQ(game.sheet[1].text, "doubles");
  EXPECT_EQ(game.sheet[2].side, Side::light);
  ASSERT_EQ(game.thrown.size(), 2U);
  EXPECT_EQ(game.thrown[1].first, 6);
}

TEST(Record, StopsAtWhatTheRulesRefuseAndSaysWhy) {
  const Replay followed = replay("opening 3 1\nmove 8/5\nlift\nthrow 2 2\n");
  ASSERT_TRUE(followed.fault);
  EXPECT_EQ(followed.fault->line, 2U);
  ASSERT_NE(followed.fault->rule, nullptr);
  EXPECT_EQ(followed.fault->rule->id, "both-dice");
  EXPECT_FALSE(followed.fault->alternatives.empty());
  // As far as it could be followed: the checker that was moved lies where it was put.
  EXPECT_EQ(followed.so_far.table.board.count(Side::light, 5), 1);
}

TEST(Record, SaysWhatCannotBeRead) {
  for (const char* bad : {"match 0", "match a", "house nonsense", "names A", "opening 3",
                          "opening 7 1", "opening 3 1\nmove 8/x", "opening 3 1\ndance"}) {
    const Replay followed = replay(bad);
    ASSERT_TRUE(followed.fault) << bad;
    EXPECT_FALSE(followed.fault->reason.empty());
  }
}

TEST(Record, GoesFromGameToGameOfAMatch) {
  const Replay followed = replay("match 2\nopening 6 1\nmove 13/7 8/7\nlift\noffer\ndrop\nnext\n");
  ASSERT_FALSE(followed.fault);
  EXPECT_EQ(followed.so_far.game, 2);
  ASSERT_TRUE(followed.so_far.table.position.match);
  EXPECT_EQ(followed.so_far.table.position.match->points[1], 1);
  EXPECT_TRUE(followed.so_far.table.position.match->crawford);
}

}  // namespace
}  // namespace pointwright::web

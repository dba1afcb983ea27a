#include "app/plays.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "rules/notation.hpp"
#include "rules/play.hpp"
#include "tests/app/command_line.hpp"

namespace pointwright::app {
namespace {

using testing::HasSubstr;

constexpr const char* dancing = "light barx1 6x2; dark 6x2 5x2 4x2 3x2 2x2 1x2; light to play 6-5";

TEST(Plays, AnswersInTheFormForOtherPrograms) {
  const Outcome answer = command({"plays", "--json", "start; light to play 3-1"});
  ASSERT_EQ(answer.exit, exit_fine);
  const Json json = answer.json();
  ASSERT_EQ(json.size(), 2U);
  EXPECT_EQ(json["position"], "light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; light to play 3-1");
  const auto expected = legal_plays(starting_board(), Side::light, Roll{3, 1});
  ASSERT_EQ(json["plays"].size(), expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    ASSERT_EQ(json["plays"][i].size(), 2U);
    EXPECT_EQ(json["plays"][i]["play"], to_text(expected[i].play));
    EXPECT_EQ(json["plays"][i]["after"], to_text(expected[i].after));
  }
}

TEST(Plays, PrintsOnePlayALineWhenNoTerminalReadsIt) {
  const Outcome answer = command({"plays", "light 6x1; dark 6x1; light to play 2-1"});
  EXPECT_EQ(answer.exit, exit_fine);
  EXPECT_EQ(answer.out, "6/3\n");
  EXPECT_EQ(command({"plays", "--after", "light 6x1; dark 6x1; light to play 2-1"}).out,
            "6/3  light 3x1 offx14; dark 6x1 offx14\n");
}

TEST(Plays, DancingHasNoPlays) {
  const Outcome words = command({"plays", dancing});
  EXPECT_EQ(words.exit, exit_fine);
  EXPECT_EQ(words.out, "no play\n");
  EXPECT_EQ(command({"plays", "--json", dancing}).json()["plays"], Json::array());
}

TEST(Plays, ReadsTheFormThatIsSafeInAnAddress) {
  const Outcome spaces = command({"plays", "--json", "light 6x2; dark 5x2; dark to play 6-4"});
  const Outcome underscores = command({"plays", "--json", "light_6x2;_dark_5x2;_dark_to_play_6-4"});
  EXPECT_EQ(spaces.exit, exit_fine);
  EXPECT_EQ(spaces.out, underscores.out);
}

TEST(Plays, ReadsThePositionFromStandardInput) {
  const Outcome answer =
      command({"plays", "-"}, "\r\n\nlight 6x1; dark 6x1; light to play 2-1\r\nignored\n");
  EXPECT_EQ(answer.exit, exit_fine);
  EXPECT_EQ(answer.out, "6/3\n");
  const Outcome nothing = command({"plays", "-"}, "\n \n");
  EXPECT_EQ(nothing.exit, exit_bad_input);
  EXPECT_THAT(nothing.err, HasSubstr("no position line in standard input"));
}

TEST(Plays, UnderlinesTheFaultWithReasonAndFix) {
  const std::string line = "light 25x2; dark 6x2; light to play 3-1";
  const Outcome answer = command({"plays", line});
  EXPECT_EQ(answer.exit, exit_bad_input);
  EXPECT_EQ(answer.out, "");
  EXPECT_THAT(answer.err, HasSubstr("  " + line + "\n        ^^"));
}

TEST(Plays, FaultsAfterTheWordStartStandWhereTheyWereTyped) {
  const Outcome answer = command({"plays", "--json", "start; light to play 7-1"});
  EXPECT_EQ(answer.exit, exit_bad_input);
  const Json error = answer.json()["error"];
  EXPECT_EQ(error["at"]["begin"], 7);
  EXPECT_EQ(error["at"]["end"], 24);
}

TEST(Plays, NeedsARoll) {
  const Outcome turn = command({"plays", "--json", "start; light to roll"});
  EXPECT_EQ(turn.exit, exit_bad_input);
  EXPECT_EQ(turn.json()["error"]["id"], "no-roll");
  EXPECT_EQ(turn.json()["input"], "start; light to roll");
  EXPECT_EQ(command({"plays", "--json", "start"}).json()["error"]["id"], "no-roll");
}

TEST(Plays, SaysWhatIsMissingOrTooMuch) {
  EXPECT_THAT(command({"plays"}).err, HasSubstr("no position to answer about"));
  const Outcome both = command({"plays", "--batch", "start; light to play 3-1"});
  EXPECT_EQ(both.exit, exit_bad_input);
  EXPECT_THAT(both.err, HasSubstr("come from standard input"));
}

}  // namespace
}  // namespace pointwright::app

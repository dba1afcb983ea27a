#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/app/command_line.hpp"

namespace pointwright::app {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

TEST(FindVerb, StreamsAPositionWithItsProof) {
  const Outcome words = command({"find", "--count", "1", "must", "play", "larger"});
  EXPECT_EQ(words.exit, exit_fine);
  EXPECT_THAT(words.out, StartsWith("light "));
  EXPECT_THAT(words.out, HasSubstr("Either die can be played, but not both"));
  const auto lines = command({"find", "--json", "--count", "2", "must play larger"}).lines();
  ASSERT_EQ(lines.size(), 3U);
  for (std::size_t i = 0; i < 2; ++i) {
    const std::string position = lines[i]["position"];
    const Outcome ruling = command({"plays", "--json", position});
    EXPECT_EQ(ruling.exit, exit_fine) << position;
    EXPECT_THAT(lines[i]["claims"][0].get<std::string>(), StartsWith("must play "));
    EXPECT_THAT(lines[i]["block"].get<std::string>(), HasSubstr(position));
  }
  EXPECT_EQ(lines[2]["end"], "enough");
  EXPECT_EQ(lines[2]["found"], 2);
}

TEST(FindVerb, SaysWhatItProved) {
  const Outcome none = command({"find", "--json", "larger-die and roll double"});
  EXPECT_EQ(none.exit, exit_no);
  EXPECT_EQ(none.json()["end"], "none-exists");
  const auto least = command({"find", "--json", "--sparse", "--count", "1",
                              "checkers light 1 and checkers dark 1 "
                              "and hits 1"})
                         .lines();
  ASSERT_EQ(least.size(), 2U);
  EXPECT_EQ(least[0]["smallest"], "proved");
  EXPECT_EQ(least[0]["checkers"], 2);
}

TEST(FindVerb, WrongWordsAreUnderlined) {
  const Outcome wrong = command({"find", "piips", "light", "3"});
  EXPECT_EQ(wrong.exit, exit_bad_input);
  EXPECT_THAT(wrong.err, HasSubstr("did you mean `pips`?"));
  EXPECT_THAT(wrong.err, HasSubstr("^^^^^"));
  for (const std::vector<std::string>& line :
       std::vector<std::vector<std::string>>{{"find"},
                                             {"find", "--count", "0", "forced"},
                                             {"find", "--count", "many", "forced"},
                                             {"find", "--roll", "7-1", "forced"},
                                             {"find", "--sparse", "--natural", "forced"},
                                             {"find", "--untrue", "forced"},
                                             {"find", "--side", "left", "forced"},
                                             {"find", "--near", "nowhere", "forced"}})
    EXPECT_EQ(command(line).exit, exit_bad_input) << line.back();
}

TEST(FindVerb, GoesFromAPositionToTheNearest) {
  const std::string position = "light barx1 6x5; dark 6x2 5x2 4x2; light to play 6-5";
  const auto lines = command({"find", "--json", "--near", position, "can enter"}).lines();
  ASSERT_EQ(lines.size(), 4U);
  EXPECT_EQ(lines[0]["checkers"].size(), 1U);
  EXPECT_THAT(lines[3]["sentence"].get<std::string>(), HasSubstr("of one checker make it true"));
  const Outcome already = command({"find", "--near", position, "no play"});
  EXPECT_THAT(already.out, HasSubstr("as the position stands"));
}

TEST(FindVerb, AnswersQueriesInABatch) {
  const Outcome batch = command({"find", "--batch", "--count", "1"}, "forced\nfroced\n");
  EXPECT_EQ(batch.exit, exit_bad_input);
  const auto lines = batch.lines();
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_EQ(lines[0]["results"].size(), 1U);
  EXPECT_EQ(lines[1]["error"]["id"], "no-such-statement");
}

TEST(FindVerb, PositionsOfGamesComeWithTheirMoves) {
  const auto lines =
      command({"find", "--json", "--natural", "--moves", "-n", "1", "bar and no play"}).lines();
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_GT(lines[0]["moves"].size(), 2U);
  EXPECT_GT(lines[1]["games"], 0);
}

}  // namespace
}  // namespace pointwright::app

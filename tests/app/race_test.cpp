#include "app/race.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "chance/race_gammon.hpp"
#include "chance/rules_of_thumb.hpp"
#include "tests/app/command_line.hpp"

namespace pointwright::app {
namespace {

using testing::HasSubstr;

constexpr const char* small_race = "light 5x1 2x1; dark 4x1 1x1; light to roll";
constexpr const char* large_race = "light 6x4 5x3; dark 6x4 5x3 4x1; dark to roll";

TEST(Race, ASmallRaceIsExact) {
  const Outcome answer = command({"race", "--json", small_race});
  ASSERT_EQ(answer.exit, exit_fine);
  const Json json = answer.json();
  const auto board = read_position(small_race).value().board;
  const auto expected = race_answer(board, Side::light);
  ASSERT_TRUE(expected.ok());
  EXPECT_EQ(json["on_roll"], "light");
  EXPECT_EQ(json["light"]["pips"], 7);
  EXPECT_EQ(json["dark"]["pips"], 5);
  EXPECT_EQ(json["known"], "exact");
  EXPECT_NEAR(json["win"]["light"].get<double>(), expected->win, 1e-6);
  EXPECT_NEAR(json["win"]["light"].get<double>() + json["win"]["dark"].get<double>(), 1, 2e-6);
  EXPECT_NEAR(json["light"]["mean_rolls"].get<double>(), expected->on_roll.mean_rolls, 1e-6);
  ASSERT_EQ(json["rules_of_thumb"].size(), rules_of_thumb().size());
  for (const Json& rule : json["rules_of_thumb"]) EXPECT_GE(rule["cost"].get<double>(), 0);
}

TEST(Race, ALargerRaceStatesItsError) {
  const Json json = command({"race", "--json", "--tables", "/no/such/folder", large_race}).json();
  EXPECT_EQ(json["on_roll"], "dark");
  EXPECT_EQ(json["known"], "combined");
  EXPECT_DOUBLE_EQ(json["error"].get<double>(), convolution_error);
  EXPECT_FALSE(json.contains("cube"));
  EXPECT_FALSE(json["rules_of_thumb"][0].contains("cost"));
  EXPECT_THAT(command({"race", "--tables", "/no/such/folder", large_race}).out,
              HasSubstr("within 1.4"));
}

TEST(Race, AGammonIsCountedWhereOneSideHasAllItsCheckers) {
  const char* line = "light 1x3; dark 6x15; light to roll";
  const Json json = command({"race", "--json", line}).json();
  const auto expected = gammon_chance(read_position(line).value().board, Side::light, Side::light);
  ASSERT_TRUE(expected);
  EXPECT_EQ(json["gammon"]["side"], "light");
  EXPECT_NEAR(json["gammon"]["chance"].get<double>(), expected->chance, 1e-6);
  EXPECT_FALSE(command({"race", "--json", small_race}).json().contains("gammon"));
}

TEST(Race, WritesTheSumOfTheLead) {
  EXPECT_THAT(command({"race", "light 4x1 1x1; dark 5x1 2x1; light to roll"}).out,
              HasSubstr("7 - 5 = 2 pips, and 2 / 5 = 40.0% of its count"));
}

TEST(Race, RefusesContact) {
  const Outcome answer = command({"race", "--json", "start; light to roll"});
  EXPECT_EQ(answer.exit, exit_bad_input);
  EXPECT_EQ(answer.json()["error"]["id"], "contact");
  EXPECT_EQ(command({"race", "--json", "start"}).json()["error"]["id"], "no-turn");
  EXPECT_EQ(command({"race"}).exit, exit_bad_input);
}

TEST(Race, ABatchAnswersInOrderWithErrorsInPlace) {
  const Outcome answer =
      command({"race", "--batch"}, std::string(small_race) + "\nstart; light to roll\n\n" +
                                       "light 6x1; dark 6x1; dark to roll\n");
  EXPECT_EQ(answer.exit, exit_bad_input);
  const auto lines = answer.lines();
  ASSERT_EQ(lines.size(), 3U);
  EXPECT_EQ(lines[0]["light"]["pips"], 7);
  EXPECT_EQ(lines[1]["error"]["id"], "contact");
  EXPECT_EQ(lines[1]["input"], "start; light to roll");
  EXPECT_EQ(lines[2]["on_roll"], "dark");
}

}  // namespace
}  // namespace pointwright::app

#include "app/cube.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/app/command_line.hpp"
#include "tests/app/temporary_folder.hpp"

namespace pointwright::app {
namespace {

using testing::HasSubstr;

// The paradox position: keeping the cube is worth 0.48, redoubling 0.22, in points with the cube at
// 2. Oswald Jacoby in The Backgammon Book, 1970; figures in The Independent, 12 September 1997.
constexpr const char* paradox = "light 5x1 2x1; dark 4x1 1x1; light to roll; cube 2 with light";
// Against two checkers on the 1-point redoubling is right (same source).
constexpr const char* no_paradox = "light 5x1 2x1; dark 1x2; light to roll; cube 2 with light";

TEST(Cube, TheParadoxPositionHoldsTheCube) {
  const Outcome answer = command({"cube", "--json", paradox});
  ASSERT_EQ(answer.exit, exit_fine);
  const Json json = answer.json();
  EXPECT_EQ(json["action"], "hold");
  EXPECT_EQ(json["answer"], "take");
  EXPECT_EQ(json["known"], "exact");
  EXPECT_NEAR(2 * json["hold"].get<double>(), 0.48, 0.005);
  EXPECT_NEAR(2 * json["double_take"].get<double>(), 0.22, 0.005);
  EXPECT_EQ(json["double_drop"], 1.0);
  EXPECT_DOUBLE_EQ(json["equities"]["mine"].get<double>(), json["hold"].get<double>());
  EXPECT_THAT(command({"cube", paradox}).out, HasSubstr("light holds the cube; dark would take"));
}

TEST(Cube, TheStrongerDefenceMakesRedoublingRight) {
  EXPECT_EQ(command({"cube", "--json", no_paradox}).json()["action"], "double");
}

TEST(Cube, ASideWithoutTheCubeCannotDouble) {
  const Json json =
      command({"cube", "--json", "light 5x1 2x1; dark 4x1 1x1; light to roll; cube 2 with dark"})
          .json();
  EXPECT_EQ(json["action"], "none");
  EXPECT_DOUBLE_EQ(json["hold"].get<double>(), json["equities"]["theirs"].get<double>());
}

TEST(Cube, AddsTheTakePointOfAMatch) {
  const std::string line = "light 5x1 2x1; dark 4x1 1x1; light to roll; match to 5 score 2-3";
  const Json json = command({"cube", "--json", line}).json();
  EXPECT_EQ(json["match"]["taker"], "dark");
  EXPECT_EQ(json["match"]["known"], "modelled");
  EXPECT_THAT(command({"cube", line}).out, HasSubstr("At the score"));
  EXPECT_EQ(command({"cube", "--json", line + " crawford"}).exit, exit_bad_input);
}

TEST(Cube, SaysWhyThereIsNoExactAnswer) {
  const Outcome contact = command({"cube", "--json", "--exact", "start; light to roll"});
  EXPECT_EQ(contact.exit, exit_no);
  EXPECT_TRUE(contact.json()["action"].is_null());
  EXPECT_THAT(contact.json()["reason"].get<std::string>(), HasSubstr("can still meet"));
  const Outcome endgame = command(
      {"cube", "--exact", "--tables", "/no/such/folder", "light 6x2; dark 20x1; light to roll"});
  EXPECT_EQ(endgame.exit, exit_no);
  EXPECT_THAT(endgame.out, HasSubstr("has not been built"));
  const Outcome race = command(
      {"cube", "--exact", "--tables", "/no/such/folder", "light 6x8; dark 6x8; light to roll"});
  EXPECT_EQ(race.exit, exit_no);
  EXPECT_THAT(race.out, HasSubstr("no table holds this race"));
}

TEST(Cube, AModelAnswersWhereNoTableDoes) {
  const Outcome start = command({"cube", "--json", "start; light to roll"});
  ASSERT_EQ(start.exit, exit_fine);
  const Json json = start.json();
  EXPECT_EQ(json["action"], "hold");
  EXPECT_EQ(json["answer"], "take");
  EXPECT_EQ(json["known"], "modelled");
  EXPECT_EQ(json["depth"], 1);
  EXPECT_GT(json["hold"].get<double>(), json["double_take"].get<double>());
  EXPECT_THAT(json["how"].get<std::string>(), HasSubstr("can still meet"));
  // Fifteen checkers on the bar side of a closed board: nothing to play for but the gammon.
  const std::string crushing =
      "light 6x3 5x3 4x3 3x2 2x2 1x2; dark barx2 13x5 8x3 6x5; light to roll";
  EXPECT_EQ(command({"cube", "--json", crushing}).json()["action"], "too good");
  EXPECT_EQ(command({"cube", "--json", crushing + "; house jacoby"}).json()["action"], "double");
  EXPECT_EQ(command({"cube", "--json", crushing + "; house jacoby"}).json()["answer"], "drop");
  EXPECT_THAT(command({"cube", "--depth", "0", "start; light to roll"}).out,
              HasSubstr("light holds the cube; dark would take"));
  EXPECT_EQ(command({"cube", "--depth", "3", "start; light to roll"}).exit, exit_bad_input);
  EXPECT_EQ(command({"cube", "--json", "start; light to roll; match to 5 score 4-2 crawford"})
                .json()["action"],
            "none");
}

constexpr const char* ahead =
    "light 24x1 13x3 8x3 6x4 5x2 4x2; dark 24x2 13x5 8x3 6x5; light to roll";

std::vector<std::string> rolled_out(std::vector<std::string> more = {}) {
  std::vector<std::string> arguments{"cube",    "--json", ahead,       "--rollout", "72",
                                     "--rolls", "4",      "--threads", "1"};
  arguments.insert(arguments.end(), more.begin(), more.end());
  return arguments;
}

TEST(Cube, ARolloutPlaysBothWaysOnWithTheSameDice) {
  const Json json = command(rolled_out()).json();
  EXPECT_EQ(json["known"], "sampled");
  EXPECT_EQ(json["trials"], 72);
  EXPECT_EQ(json["answer"], "drop");
  EXPECT_TRUE(json["answer_settled"].get<bool>());
  EXPECT_GT(json["hold_error"].get<double>(), 0);
  EXPECT_GT(json["double_take"].get<double>(), 1 + 3 * json["double_take_error"].get<double>());
  EXPECT_NE(command(rolled_out({"--seed", "2"})).json()["hold"], json["hold"]);
  const TemporaryFolder folder;
  const std::string first = (folder.path() / "one").string();
  const std::string second = (folder.path() / "two").string();
  EXPECT_EQ(command(rolled_out({"--part", "1/2", "--resume", first})).json()["part"], "1/2");
  command(rolled_out({"--part", "2/2", "--resume", second}));
  EXPECT_EQ(command(rolled_out({"--merge", first, "--merge", second})).json(), json);
  // The worth of the same position is another rollout.
  EXPECT_EQ(command({"worth", "--json", ahead, "--rollout", "72", "--rolls", "4", "--merge", first})
                .json()["error"]["id"],
            "other-rollout");
  EXPECT_THAT(command({"cube", ahead, "--rollout", "36", "--rolls", "2"}).out,
              HasSubstr("36 trials with the same dice"));
}

TEST(Cube, ARolloutIsNotNeededWhereATableKnows) {
  EXPECT_EQ(command({"cube", "--json", paradox, "--rollout", "36"}).json()["known"], "exact");
  EXPECT_EQ(command({"cube", ahead, "--rollout", "36", "--depth", "1"}).exit, exit_bad_input);
  // A batch may hold both.
  const std::vector<std::string> how{"--rollout", "36", "--rolls", "2"};
  std::vector<std::string> one{"cube", "--json", ahead};
  std::vector<std::string> batch{"cube", "--batch"};
  for (auto* words : {&one, &batch}) words->insert(words->end(), how.begin(), how.end());
  const auto lines = command(batch, std::string(paradox) + "\n" + ahead + "\n").lines();
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_EQ(lines[0]["known"], "exact");
  EXPECT_EQ(lines[1], command(one).json());
  batch.insert(batch.end(), {"--part", "1/2", "--resume", "x"});
  EXPECT_EQ(command(batch).exit, exit_bad_input);
  EXPECT_EQ(command({"cube", ahead, "--seed", "3"}).exit, exit_bad_input);
}

TEST(Cube, AddsTheSumsWithTheGammonsThatAreGivenOrExpected) {
  const std::string race = "light 5x1 2x1; dark 4x1 1x1; light to roll";
  const Json exact = command({"cube", "--json", race, "--gammons", "25-10"}).json();
  EXPECT_TRUE(exact["points"]["gammons_counted"].is_null());  // no gammon can happen
  EXPECT_EQ(exact["points"]["take_point"]["dead"], 0.25);
  const std::string opening = "start; light to roll";
  const Json given = command({"cube", "--json", opening, "--gammons", "25-10"}).json();
  EXPECT_EQ(given["points"]["gammons_counted"]["dark"], 0.1);
  EXPECT_NEAR(given["points"]["take_point"]["dead"].get<double>(), 1.5 / 4.7, 1e-4);
  const Json expected = command({"cube", "--json", opening, "--depth", "0"}).json();
  EXPECT_NEAR(expected["points"]["gammons_counted"]["light"].get<double>(),
              expected["win_gammon"].get<double>() / expected["win"].get<double>(), 1e-3);
  EXPECT_THAT(command({"cube", opening, "--gammons", "25-10"}).out,
              HasSubstr("The take risks 1.50 to gain 3.20"));
  EXPECT_EQ(command({"cube", opening, "--gammons", "ten"}).exit, exit_bad_input);
}

TEST(Cube, ABatchAnswersInOrderWithErrorsInPlace) {
  const Outcome answer = command({"cube", "--batch", "--exact", "--tables", "/no/such/folder"},
                                 std::string(paradox) + "\nstart\nstart; light to roll\n");
  EXPECT_EQ(answer.exit, exit_bad_input);
  const auto lines = answer.lines();
  ASSERT_EQ(lines.size(), 3U);
  EXPECT_EQ(lines[0]["action"], "hold");
  EXPECT_EQ(lines[1]["error"]["id"], "no-turn");
  EXPECT_TRUE(lines[2]["action"].is_null());
}

}  // namespace
}  // namespace pointwright::app

#include "app/match.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>

#include "chance/cube_sums.hpp"
#include "chance/match_cube.hpp"
#include "tests/app/command_line.hpp"
#include "tests/app/temporary_folder.hpp"

namespace pointwright::app {
namespace {

using testing::HasSubstr;
using testing::Not;

TEST(Match, SaysWhatAScoreMeans) {
  const Outcome answer = command({"match", "--json", "7", "3-5"});
  ASSERT_EQ(answer.exit, exit_fine);
  const Json json = answer.json();
  EXPECT_EQ(json["needs"]["light"], 4);
  EXPECT_EQ(json["needs"]["dark"], 2);
  EXPECT_EQ(json["game"], "before-crawford");
  EXPECT_EQ(json["known"], "modelled");
  EXPECT_NEAR(json["chances"]["light"].get<double>() + json["chances"]["dark"].get<double>(), 1,
              2e-4);
  EXPECT_NEAR(json["chances"]["light"].get<double>(), chance::standard_match_table().chance(4, 2),
              1e-4);
  ASSERT_EQ(json["offers"].size(), 2U);
  EXPECT_EQ(json["offers"][0]["by"], "light");
  EXPECT_EQ(json["offers"][0]["taker"], "dark");
  EXPECT_TRUE(json["offers"][0]["cube_dead_for_taker"].get<bool>());
}

TEST(Match, TheSumIsTheOneOfTheRoom) {
  const Json offer = command({"match", "--json", "7", "3-5"}).json()["offers"][1];
  const chance::Needs light{4, 2, false};
  const auto sum = chance::decide_at_score(chance::standard_match_table(), light, 1);
  EXPECT_NEAR(offer["take_point"]["dead"].get<double>(), sum.dead_take_point, 1e-4);
  EXPECT_EQ(offer["sum"], chance::take_point_sum(sum, light, {}, Side::light));
  EXPECT_THAT(command({"match", "7", "3-5"}).out, HasSubstr("If dark doubles to 2"));
}

TEST(Match, APositionLineAndItsPartsGiveTheSameAnswer) {
  const Outcome parts = command({"match", "--json", "9", "2-4", "--cube", "2", "--holder", "dark"});
  const Outcome line =
      command({"match", "--json", "start; cube 2 with dark; match to 9 score 2-4"});
  EXPECT_EQ(parts.exit, exit_fine);
  EXPECT_EQ(parts.out, line.out);
  ASSERT_EQ(parts.json()["offers"].size(), 1U);
  EXPECT_EQ(parts.json()["offers"][0]["by"], "dark");
  EXPECT_EQ(parts.json()["offers"][0]["cube"], 4);
}

TEST(Match, KnowsTheCrawfordGame) {
  const Json crawford = command({"match", "--json", "5", "4-2", "--crawford"}).json();
  EXPECT_EQ(crawford["game"], "crawford");
  EXPECT_TRUE(crawford["offers"].empty());
  const Json after = command({"match", "--json", "5", "4-2"}).json();
  EXPECT_EQ(after["game"], "after-crawford");
  ASSERT_EQ(after["offers"].size(), 1U);  // the leader has nothing to gain by doubling
  EXPECT_EQ(after["offers"][0]["by"], "dark");
  EXPECT_EQ(command({"match", "--json", "5", "4-4"}).json()["game"], "last");
  EXPECT_THAT(command({"match", "5", "4-2"}).out, HasSubstr("light gains nothing by doubling"));
}

TEST(Match, KeepsTheScore) {
  const Json crawford = command({"match", "--json", "7", "4-3", "--after", "light", "2"}).json();
  EXPECT_EQ(crawford["after"]["score"]["light"], 6);
  EXPECT_TRUE(crawford["after"]["crawford"].get<bool>());
  EXPECT_EQ(crawford["game"], "crawford");
  const Json over = command({"match", "--json", "7", "4-3", "--after", "dark", "4"}).json();
  EXPECT_TRUE(over["after"]["over"].get<bool>());
  EXPECT_FALSE(over.contains("chances"));
  EXPECT_THAT(command({"match", "7", "4-3", "--after", "dark", "4"}).out,
              HasSubstr("dark wins the match"));
}

TEST(Match, PrintsATableThatItReadsBack) {
  const TemporaryFolder folder;
  const std::string file = (folder.path() / "table.csv").string();
  const Outcome csv = command({"match", "--csv"});
  ASSERT_EQ(csv.exit, exit_fine);
  std::ofstream(file) << csv.out;
  const Json given = command({"match", "--json", "7", "3-5", "--table", file}).json();
  const Json computed = command({"match", "--json", "7", "3-5"}).json();
  EXPECT_EQ(given["known"], "given");
  EXPECT_EQ(given["table"]["source"], file);
  EXPECT_EQ(given["chances"], computed["chances"]);
}

TEST(Match, ShowsAFaultOfATableAtItsLine) {
  const TemporaryFolder folder;
  const std::string file = (folder.path() / "table.csv").string();
  std::ofstream(file) << "# two points\n50,70\n30,5x\n";
  const Outcome answer = command({"match", "2", "0-0", "--table", file});
  EXPECT_EQ(answer.exit, exit_bad_input);
  EXPECT_THAT(answer.err, HasSubstr("table.csv:3:4"));
  std::ofstream(file) << "50,70\n30,50\n";
  EXPECT_EQ(command({"match", "--json", "7", "0-0", "--table", file}).json()["error"]["id"],
            "beyond-the-table");
  EXPECT_EQ(command({"match", "2", "0-0", "--table", "/no/such/file"}).exit, exit_bad_input);
}

TEST(Match, CountsGammonsWhereTheyAreGiven) {
  const Json json = command({"match", "--json", "7", "3-5", "--gammons", "25-10"}).json();
  const auto sum = chance::decide_at_score(chance::standard_match_table(), {2, 4, false}, 1,
                                           {.mine = 0.10, .theirs = 0.25});
  EXPECT_EQ(json["gammons_counted"]["light"], 0.25);
  EXPECT_EQ(json["offers"][0]["taker"], "dark");
  EXPECT_NEAR(json["offers"][0]["take_point"]["dead"].get<double>(), sum.dead_take_point, 1e-4);
  EXPECT_NEAR(json["offers"][0]["double_point"].get<double>(), sum.double_point, 1e-4);
  EXPECT_THAT(json["offers"][0]["sum"].get<std::string>(), HasSubstr("with a gammon, in 25%"));
  EXPECT_TRUE(command({"match", "--json", "7", "3-5"}).json()["gammons_counted"].is_null());
  EXPECT_THAT(command({"match", "7", "3-5", "--gammons", "25-10"}).out,
              HasSubstr("Counted: 25.0% of the games that light wins are gammons"));
}

TEST(Match, AnswersAboutAGameForPoints) {
  const Json plain = command({"match", "--json", "money"}).json();
  ASSERT_EQ(plain["offers"].size(), 2U);
  EXPECT_EQ(plain["offers"][0]["take_point"]["dead"], 0.25);
  EXPECT_EQ(plain["offers"][0]["take_point"]["live"], 0.2);
  EXPECT_EQ(plain["offers"][0]["double_point"]["dead"], 0.5);
  EXPECT_EQ(plain["offers"][0]["double_point"]["live"], 0.8);
  EXPECT_TRUE(plain["offers"][0]["too_good_point"]["usual"].is_null());
  const Json jacoby =
      command({"match", "--json", "money", "--gammons", "25-10", "--jacoby"}).json();
  EXPECT_NEAR(jacoby["offers"][0]["double_point"]["dead"].get<double>(), 1.2 / 2.7, 1e-4);
  EXPECT_NEAR(jacoby["offers"][0]["take_point"]["dead"].get<double>(), 1.5 / 4.7, 1e-4);
  const Json turned =
      command({"match", "--json", "money", "--cube", "2", "--holder", "dark", "--jacoby"}).json();
  ASSERT_EQ(turned["offers"].size(), 1U);
  EXPECT_EQ(turned["offers"][0]["by"], "dark");
  EXPECT_FALSE(turned["jacoby"].get<bool>());
  EXPECT_THAT(command({"match", "money"}).out,
              HasSubstr("it needs 1.00 / (1.00 + 3.00) = 25.0% of the games"));
}

TEST(Match, RefusesWhatItCannotAnswer) {
  const auto id = [](std::vector<std::string> arguments) {
    arguments.insert(arguments.begin() + 1, "--json");
    const Outcome answer = command(arguments);
    EXPECT_EQ(answer.exit, exit_bad_input);
    return answer.json()["error"]["id"].get<std::string>();
  };
  EXPECT_EQ(id({"match", "7", "8-2"}), "match-over");
  EXPECT_EQ(id({"match", "30", "0-0"}), "beyond-the-table");
  EXPECT_EQ(id({"match", "7"}), "missing-score");
  EXPECT_EQ(id({"match", "start"}), "no-match");
  EXPECT_EQ(id({"match", "7", "3-5", "--after", "green", "2"}), "no-such-side");
  EXPECT_EQ(id({"match", "7", "3-5", "--after", "light", "0"}), "no-such-points");
  EXPECT_EQ(id({"match", "7", "3-5", "--cube", "3"}), "no-such-cube");
  EXPECT_EQ(id({"match", "start; match to 7 score 3-5", "3-5"}), "too-many-arguments");
  EXPECT_EQ(id({"match", "7", "3-5", "--gammons", "25"}), "no-such-gammons");
  EXPECT_EQ(id({"match", "7", "3-5", "--jacoby"}), "jacoby-in-a-match");
  EXPECT_EQ(id({"match", "money", "3-5"}), "too-many-arguments");
  EXPECT_EQ(command({"match"}).exit, exit_bad_input);
  EXPECT_EQ(command({"match", "--batch", "7", "3-5"}).exit, exit_bad_input);
}

TEST(Match, ABatchAnswersInOrderWithErrorsInPlace) {
  const Outcome answer = command({"match", "--batch"},
                                 "start; match to 7 score 3-5\nstart\n"
                                 "light 6x1; dark 6x1; light to roll; match to 3 score 1-1\n");
  EXPECT_EQ(answer.exit, exit_bad_input);
  const auto lines = answer.lines();
  ASSERT_EQ(lines.size(), 3U);
  EXPECT_EQ(lines[0]["match"]["length"], 7);
  EXPECT_EQ(lines[1]["error"]["id"], "no-match");
  EXPECT_EQ(lines[2]["match"]["length"], 3);
}

}  // namespace
}  // namespace pointwright::app

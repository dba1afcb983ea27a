#include "app/rule.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "rules/notation.hpp"
#include "rules/rulebook.hpp"
#include "tests/app/command_line.hpp"

namespace pointwright::app {
namespace {

using testing::HasSubstr;

TEST(Rule, AllowsWithTheBoardThatFollows) {
  const Outcome words = command({"rule", "start; light to play 3-1", "6/5", "8/5"});
  EXPECT_EQ(words.exit, exit_fine);
  EXPECT_EQ(words.out, "allowed 8/5 6/5\n  light 24x2 13x5 8x2 6x4 5x2; dark 24x2 13x5 8x3 6x5\n");
  const Json json = command({"rule", "--json", "start; light to play 3-1", "6/5 8/5"}).json();
  EXPECT_EQ(json["allowed"], true);
  EXPECT_EQ(json["attempt"], "6/5 8/5");
  EXPECT_EQ(json["play"], "8/5 6/5");
  EXPECT_EQ(json["after"], "light 24x2 13x5 8x2 6x4 5x2; dark 24x2 13x5 8x3 6x5");
}

TEST(Rule, RefusesEveryExampleOfTheRuleBookByItsRule) {
  int refused = 0;
  for (const Rule* rule : rulebook()) {
    if (rule->attempt.empty()) continue;
    const std::string position{rule->example};
    const std::string attempt{rule->attempt};
    const Outcome words = command({"rule", position, attempt});
    EXPECT_EQ(words.exit, exit_no) << rule->id;
    EXPECT_THAT(words.out, HasSubstr("refused by " + std::string{rule->id}));
    const Outcome single = command({"rule", "--json", position, attempt});
    EXPECT_EQ(single.exit, exit_no);
    const Json json = single.json();
    EXPECT_EQ(json["allowed"], false);
    EXPECT_EQ(json["rule"], rule->id);
    EXPECT_EQ(json["statement"], rule->statement);
    EXPECT_FALSE(json["proof"].get<std::string>().empty());
    const Outcome batch = command({"rule", "--batch"}, position + " | " + attempt + "\n");
    EXPECT_EQ(batch.exit, exit_fine);
    EXPECT_EQ(batch.json(), json);
    ++refused;
  }
  EXPECT_GT(refused, 10);
}

TEST(Rule, TheListOfPlaysAndTheRefereeAgree) {
  for (const char* position :
       {"start; light to play 5-3", "light barx1 8x2 6x3; dark 6x4 5x2 3x2; light to play 4-2",
        "light 6x2 5x2; dark 24x1 6x3; light to play 6-6"}) {
    std::string input;
    const Json plays = command({"plays", "--json", position}).json()["plays"];
    ASSERT_FALSE(plays.empty());
    for (const Json& play : plays) {
      input += std::string(position) + "|" + play["play"].get<std::string>() + "\n";
    }
    const auto rulings = command({"rule", "--batch"}, input).lines();
    ASSERT_EQ(rulings.size(), plays.size());
    for (std::size_t i = 0; i < rulings.size(); ++i) {
      EXPECT_EQ(rulings[i]["allowed"], true) << rulings[i];
      EXPECT_EQ(rulings[i]["play"], plays[i]["play"]);
      EXPECT_EQ(rulings[i]["after"], plays[i]["after"]);
    }
  }
}

TEST(Rule, FaultsOfABatchStandInTheWholeLine) {
  const std::string line = "start; light to play 3-1 | 8/5 6/57";
  const Outcome answer = command({"rule", "--batch"}, "\n" + line + "\n");
  EXPECT_EQ(answer.exit, exit_bad_input);
  const Json json = answer.json();
  EXPECT_EQ(json["input"], line);
  EXPECT_EQ(json["error"]["at"], (Json{{"line", 2}, {"begin", 33}, {"end", 35}}));
}

TEST(Rule, ABatchLineNeedsAPlay) {
  const auto lines = command({"rule", "--batch"}, "start; light to play 3-1\n| 8/5\n").lines();
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_EQ(lines[0]["error"]["id"], "missing-play");
  EXPECT_TRUE(lines[1].contains("error"));
}

TEST(Rule, SaysWhatIsMissing) {
  EXPECT_THAT(command({"rule"}).err, HasSubstr("no position to answer about"));
  EXPECT_THAT(command({"rule", "start; light to play 3-1"}).err, HasSubstr("no play to rule on"));
  const Outcome unreadable = command({"rule", "start; light to play 3-1", "8/x5"});
  EXPECT_EQ(unreadable.exit, exit_bad_input);
  EXPECT_THAT(unreadable.err, HasSubstr("  8/x5\n    ^^\n"));
}

}  // namespace
}  // namespace pointwright::app

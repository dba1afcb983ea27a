#include "app/advise.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "judge/grade.hpp"
#include "judge/shipped.hpp"
#include "rules/notation.hpp"
#include "tests/app/command_line.hpp"

namespace pointwright::app {
namespace {

using testing::HasSubstr;
using testing::Not;

constexpr const char* opening =
    "light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; light to play 6-4";

TEST(Advise, RanksAsTheSearchDoes) {
  const Outcome answer = command({"advise", "--json", "--top", "100", opening});
  ASSERT_EQ(answer.exit, exit_fine);
  const Json json = answer.json();
  judge::Search search(judge::shipped_evaluator());
  const auto ranked = search.rank(starting_board(), Side::light, Roll(6, 4), 1);
  EXPECT_EQ(json["legal"], ranked.size());
  ASSERT_EQ(json["plays"].size(), ranked.size());
  EXPECT_EQ(json["played_for"], "points");
  for (std::size_t i = 0; i < ranked.size(); ++i) {
    const Json& play = json["plays"][i];
    EXPECT_EQ(play["play"], to_text(ranked[i].play.play));
    EXPECT_NEAR(play["equity"].get<double>(), static_cast<double>(ranked[i].equity), 6e-5);
    EXPECT_NEAR(play["chances"]["win"].get<double>(), static_cast<double>(ranked[i].chances.win),
                6e-5);
    EXPECT_EQ(play["known"], "searched");
    EXPECT_EQ(play["depth"], ranked[i].depth);
    const double cost = static_cast<double>(ranked[0].equity - ranked[i].equity);
    EXPECT_NEAR(play["cost"].get<double>(), std::max(0.0, cost), 6e-5);
    EXPECT_EQ(play["grade"], judge::grade_of(std::max(0.0, cost)).name);
  }
  EXPECT_EQ(json["why"]["first"], json["plays"][0]["play"]);
  EXPECT_EQ(json["why"]["second"], json["plays"][1]["play"]);
  double shares = 0;
  for (const Json& group : json["why"]["rolls"]) shares += group["share"].get<double>();
  EXPECT_NEAR(shares, json["why"]["difference"].get<double>(), 1e-3);
}

TEST(Advise, PrintsTheBestPlaysAndAReason) {
  const Outcome answer = command({"advise", "start; light to play 3-1", "--top", "2"});
  EXPECT_EQ(answer.exit, exit_fine);
  EXPECT_THAT(answer.out, HasSubstr("1  8/5 6/5"));
  EXPECT_THAT(answer.out, HasSubstr("1 roll ahead"));
  EXPECT_THAT(answer.out, HasSubstr("Why 8/5 6/5 and not 13/9"));
  EXPECT_THAT(answer.out, HasSubstr("8/5 6/5 makes the 5 and leaves no blot."));
  EXPECT_THAT(answer.out, Not(HasSubstr("\n   3  ")));
}

TEST(Advise, GivesTheSameNumbersOnAnyNumberOfThreads) {
  const std::vector<std::string> searched{"advise", "--json", "--depth", "2", opening, "--threads"};
  const std::vector<std::string> rolled{"advise", "light 9x1 6x2; dark 20x1 4x2; light to play 6-5",
                                        "--rollout", "72", "--threads"};
  for (std::vector<std::string> words : {searched, rolled}) {
    words.emplace_back("1");
    const Outcome one = command(words);
    EXPECT_EQ(one.exit, exit_fine) << one.err;
    words.back() = "3";
    EXPECT_EQ(command(words).out, one.out);
    words.back() = "0";
    EXPECT_EQ(command(words).exit, exit_bad_input);
  }
}

TEST(Advise, SaysWhyNotThePlayAskedAbout) {
  // A play so poor that the search passes over it is looked at all the same.
  const Json json = command({"advise", "--json", "--top", "1", "--depth", "2", "--play", "8/7 8/3",
                             "start; light to play 5-1"})
                        .json();
  ASSERT_EQ(json["plays"].size(), 2U);
  EXPECT_EQ(json["plays"][1]["play"], "8/7 8/3");
  EXPECT_EQ(json["plays"][1]["depth"], 2);
  EXPECT_EQ(json["why"]["second"], "8/7 8/3");
  EXPECT_EQ(json["plays"][1]["grade"], "a fall");
  EXPECT_THAT(command({"advise", "--play", "8/7 8/3", "start; light to play 5-1"}).out,
              HasSubstr("and not 8/7 8/3"));
}

TEST(Advise, RefusesAPlayByTheRule) {
  const Outcome answer = command({"advise", "--play", "24/18/13", "start; light to play 5-1"});
  EXPECT_EQ(answer.exit, exit_no);
  EXPECT_THAT(answer.out, HasSubstr("refused by die-once"));
  const Json json =
      command({"advise", "--json", "--play", "24/18/13", "start; light to play 5-1"}).json();
  EXPECT_EQ(json["allowed"], false);
  EXPECT_EQ(json["rule"], "die-once");
  EXPECT_EQ(command({"advise", "--play", "24/99", "start; light to play 5-1"}).exit,
            exit_bad_input);
}

TEST(Advise, ExactTablesAnswerWhereTheyCan) {
  const Json json =
      command({"advise", "--json", "light 5x1 2x1; dark 4x1 1x1; light to play 4-1"}).json();
  for (const Json& play : json["plays"]) EXPECT_EQ(play["known"], "exact");
}

TEST(Advise, AMatchScoreChangesWhatCounts) {
  // Needing one point, gammons won are worth nothing.
  const Json json =
      command({"advise", "--json", "start; light to play 6-4; match to 5 score 4-1"}).json();
  EXPECT_EQ(json["played_for"], "a match to 5, score 4-1");
  const Json& best = json["plays"][0];
  const Json points = command({"advise", "--json", "start; light to play 6-4"}).json();
  EXPECT_NE(best["equity"], points["plays"][0]["equity"]);
  EXPECT_EQ(command({"advise", "start; light to play 6-4; match to 99 score 0-0"}).exit,
            exit_bad_input);
}

TEST(Advise, ADanceAndAForcedPlayNeedNoReason) {
  const Outcome dance =
      command({"advise", "light barx1; dark 6x2 5x2 4x2 3x2 2x2 1x2; light to play 6-4"});
  EXPECT_EQ(dance.exit, exit_fine);
  EXPECT_THAT(dance.out, HasSubstr("no legal move"));
  const Outcome forced = command({"advise", "light 15x1; dark 18x2; light to play 6-2"});
  EXPECT_THAT(forced.out, HasSubstr("the only legal play"));
  EXPECT_THAT(forced.out, Not(HasSubstr("Why")));
}

TEST(Advise, ARolloutStatesItsErrors) {
  const char* ending = "light 9x1 8x1 6x2; dark 24x1 3x2; light to play 3-1";
  const Json json = command({"advise", "--json", "--rollout", "72", ending}).json();
  EXPECT_GE(json["trials"], 72);
  EXPECT_EQ(json["plays"][0]["known"], "sampled");
  EXPECT_GE(json["plays"][0]["error"].get<double>(), 0);
  EXPECT_EQ(json["plays"][0]["cost"], 0.0);
  EXPECT_GT(json["plays"][1]["cost_error"].get<double>(), 0);
  EXPECT_THAT(command({"advise", "--rollout", "36", ending}).out, HasSubstr("+- 0."));
}

TEST(Advise, BadNumbersAreRefused) {
  for (const auto& options : std::vector<std::vector<std::string>>{{"--depth", "9"},
                                                                   {"--depth", "-1"},
                                                                   {"--top", "0"},
                                                                   {"--top", "many"},
                                                                   {"--rollout", "1"},
                                                                   {"--rollout", "1e9"}}) {
    std::vector<std::string> arguments{"advise", opening};
    arguments.insert(arguments.end(), options.begin(), options.end());
    const Outcome answer = command(arguments);
    EXPECT_EQ(answer.exit, exit_bad_input) << options[0] << " " << options[1];
    EXPECT_THAT(answer.err, HasSubstr("fix:"));
  }
  EXPECT_EQ(command({"advise", "start; light to roll"}).exit, exit_bad_input);
}

TEST(Advise, ABatchAnswersInOrderWithErrorsInPlace) {
  const Outcome answer = command(
      {"advise", "--batch", "--top", "1"},
      std::string(opening) +
          "\nstart; light to play 5-1 | 24/18\nnonsense\nstart; light to play 5-1 | 24/18/13\n");
  EXPECT_EQ(answer.exit, exit_bad_input);
  const auto lines = answer.lines();
  ASSERT_EQ(lines.size(), 4U);
  EXPECT_EQ(lines[0]["plays"].size(), 1U);
  EXPECT_EQ(lines[1]["why"]["second"], "24/18");
  EXPECT_TRUE(lines[2].contains("error"));
  EXPECT_EQ(lines[3]["allowed"], false);
}

}  // namespace
}  // namespace pointwright::app

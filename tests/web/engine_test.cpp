// The door of the engine: every answer is JSON, whatever is asked; and whole games that the program
// plays against itself.
#include "web/engine.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <random>

#include "rules/position.hpp"
#include "tests/rules/random_positions.hpp"
#include "web/sealed_dice.hpp"

namespace pointwright::web {
namespace {

using nlohmann::json;

json ask(const std::string& question) {
  const json parsed = json::parse(answer(question), nullptr, false);
  EXPECT_FALSE(parsed.is_discarded()) << question;
  return parsed;
}

const std::string opening =
    "position light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; light to play 3-1\n";

TEST(Engine, SaysHowATurnGoesOn) {
  const json turn = ask("turn\n" + opening + "moves 8/5");
  EXPECT_FALSE(turn["complete"]);
  EXPECT_EQ(turn["left"], json({1}));
  const json done = ask("turn\n" + opening + "moves 8/5 6/5");
  EXPECT_TRUE(done["complete"]);
  EXPECT_EQ(done["play"], "8/5 6/5");
  EXPECT_EQ(done["next"], "light 24x2 13x5 8x2 6x4 5x2; dark 24x2 13x5 8x3 6x5; dark to roll");
}

// The last checker is off but the dice still lie: the page must be able to draw that.
TEST(Engine, ShowsABoardOnWhichTheGameHasBeenWon) {
  const std::string about = "position light 1x1 offx14; dark 20x2; light to play 5-5\n";
  const json turn = ask("turn\n" + about + "moves 1/off");
  EXPECT_TRUE(turn["complete"]);
  for (const char* line : {"position", "next"}) {
    const json picture = ask("picture\nposition " + turn[line].get<std::string>());
    EXPECT_TRUE(picture.contains("svg")) << turn[line];
  }
}

TEST(Engine, RefusesAMoveWithTheRefereesReason) {
  const json turn = ask("turn\n" + opening + "from 13\nto 7");
  EXPECT_EQ(turn["refused"]["rule"], "dice-numbers");
  EXPECT_NE(turn["refused"]["proof"].get<std::string>().find("13/7 moves 6 pips"),
            std::string::npos);
}

TEST(Engine, RollsForAPositionThatWaits) {
  const json position = ask(
      "position\nposition light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5\nturn dark\nroll 6 4");
  EXPECT_EQ(position["roll"], "6-4");
  EXPECT_EQ(position["turn"], "dark");
}

TEST(Engine, SaysWhatToDoAboutTheCube) {
  const std::string start_line = "position light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; ";
  // 34 rolls of 36 bear both off, and dark would bear off after the other two: dark drops.
  const json clear = ask("cube\nposition light 3x1 1x1; dark 1x1; light to roll");
  EXPECT_EQ(clear["action"], "double") << clear;
  EXPECT_EQ(clear["reply"], "drop") << clear;
  const json start = ask("cube\n" + start_line + "light to roll");
  EXPECT_EQ(start["action"], "hold") << start;
  EXPECT_EQ(start["reply"], "take") << start;
  const json theirs = ask("cube\n" + start_line + "light to roll; cube 2 with dark");
  EXPECT_EQ(theirs["mayDouble"], false) << theirs;
}

TEST(Engine, AnswersNonsenseWithReasons) {
  for (const char* bad :
       {"", "\n\n", "nonsense", "position", "position\nposition light 25x1", "turn",
        "rule\nposition x", "turn\nposition light 24x2; dark 24x2; light to play 3-1\nmoves 9/7",
        "turn\nposition light 24x2; dark 24x2; light to play 3-1\nmoves junk",
        "turn\nposition light 24x2; dark 24x2; light to play 3-1\nfrom 99\nto -4",
        "sealed\nnumber x", "table\nopening 9 9", "decision\nbroken", "decision", "verify",
        "picture\nposition -"}) {
    const json parsed = ask(bad);
    EXPECT_TRUE(parsed.is_object()) << bad;
  }
}

TEST(Engine, AnswersEveryQuestionAboutAnyPosition) {
  std::mt19937_64 random(5);
  for (int i = 0; i < 60; ++i) {
    const std::string line = to_text(testing::random_position(random));
    for (const char* verb : {"position", "picture", "diagram", "plays", "turn", "chances",
                             "evaluation", "ranking", "cube"}) {
      EXPECT_TRUE(ask(std::string(verb) + "\nposition " + line).is_object()) << line;
    }
  }
}

/// Plays a match of the program against itself, with sealed dice. Returns the record.
std::string played_match(const std::string& seed, int length) {
  std::string record = "match " + std::to_string(length) + "\nhouse beavers\nsealed " +
                       commitment(seed) + "\nwords hello\nseed " + seed + "\n";
  int throws = 0;
  for (int guard = 0; guard < 5000; ++guard) {
    const json table = ask("table\n" + record);
    EXPECT_FALSE(table.contains("fault")) << record;
    if (table.contains("fault")) return record;
    EXPECT_TRUE(ask("picture\nposition " + table["position"].get<std::string>()).contains("svg"));
    const auto dice = [&] {
      const auto thrown = sealed_throw(seed, "hello", throws++);
      return std::to_string(thrown[0]) + " " + std::to_string(thrown[1]) + "\n";
    };
    if (table["phase"] == "over") {
      if (table["result"]["matchOver"]) return record;
      record += "next\n";
    } else if (table["phase"] == "opening") {
      record += "opening " + dice();
    } else {
      const json decision = ask("decision\n" + record);
      for (const std::string event : decision["events"]) {
        record += event + "\n";
        const json shown = ask("table\n" + record);
        EXPECT_TRUE(
            ask("picture\nposition " + shown["position"].get<std::string>()).contains("svg"))
            << record;
      }
      if (decision["throws"]) record += "throw " + dice();
      EXPECT_TRUE(decision["throws"] || !decision["events"].empty()) << record;
    }
  }
  ADD_FAILURE() << "the match does not end";
  return record;
}

TEST(Engine, PlaysAWholeMatchAgainstItselfByTheRules) {
  const std::string record = played_match("a seed for a match", 3);
  const json verified = ask("verify\n" + record);
  EXPECT_TRUE(verified["holds"]);
  EXPECT_TRUE(verified["wrong"].empty());
  EXPECT_GT(verified["throws"], 20);
}

TEST(Engine, FindsAThrowThatIsNotTheSeeds) {
  std::string record = played_match("another seed", 1);
  const std::size_t at = record.find("throw ") + 6;
  record[at] = record[at] == '6' ? '5' : '6';
  // The changed throw makes a later play illegal, so that the record may end early.
  const json verified = ask("verify\n" + record);
  EXPECT_EQ(verified["wrong"].size(), 1U);
  std::string other_seed = played_match("another seed", 1);
  other_seed.replace(other_seed.find("seed another seed"), 17, "seed another seal");
  EXPECT_FALSE(ask("verify\n" + other_seed)["holds"]);
}

}  // namespace
}  // namespace pointwright::web

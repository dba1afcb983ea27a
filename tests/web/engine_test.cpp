// The door of the engine: every answer is JSON, whatever is asked; and whole games that the program
// plays against itself.
#include "web/engine.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <random>

#include "chance/two_sided.hpp"
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

// Oswald Jacoby's paradox, in The Backgammon Book, 1970; the two worths from a newspaper column of
// 12 September 1997 (The Independent, "Backgammon"), in points with the cube at 2.
TEST(Engine, TheTableHasTheLastWordAboutTheCube) {
  const json keep =
      ask("cube\nposition light 5x1 2x1; dark 4x1 1x1; light to roll; cube 2 with light");
  EXPECT_EQ(keep["action"], "hold") << keep;
  EXPECT_EQ(keep["known"], "exact");
  EXPECT_NEAR(2 * keep["hold"].get<double>(), 0.48, 0.005);
  EXPECT_NEAR(2 * keep["take"].get<double>(), 0.22, 0.005);
  const json turn = ask("cube\nposition light 5x1 2x1; dark 1x2; light to roll; cube 2 with light");
  EXPECT_EQ(turn["action"], "double") << turn;
  // At a match score the table knows the chances but not what the cube is worth.
  const json match =
      ask("cube\nposition light 5x1 2x1; dark 4x1 1x1; light to roll; match to 7 score 0-0");
  EXPECT_EQ(match["known"], "modelled") << match;
  EXPECT_EQ(match["chances"]["known"], "exact");
  const json far = ask("cube\nposition light 6x7; dark 6x7; light to roll");
  EXPECT_EQ(far["known"], "modelled") << far;
}

TEST(Engine, CubeAnswersInBearOffsAreThoseOfTheTable) {
  const auto camp = [](unsigned at) {
    std::string text;
    for (const unsigned point : {at / 6 + 1, at % 6 + 1})
      text += " " + std::to_string(point) + "x1";
    return text;
  };
  const TwoSidedTable<double>& table = small_races();
  for (unsigned light = 0; light < 36; ++light) {
    for (unsigned dark = 0; dark < 36; ++dark) {
      if (light % 6 <= light / 6 || dark % 6 <= dark / 6) continue;  // each pair of points once
      for (const auto& [cube, access] : {std::pair{"", CubeAccess::centred},
                                         std::pair{"; cube 4 with light", CubeAccess::mine}}) {
        const std::string line =
            "light" + camp(light) + "; dark" + camp(dark) + "; light to roll" + cube;
        const auto position = read_position(line);
        ASSERT_TRUE(position) << line;
        const CubeValues values = table.values(table.family().rank(position->board.of(Side::light)),
                                               table.family().rank(position->board.of(Side::dark)));
        const json said = ask("cube\nposition " + line);
        EXPECT_EQ(said["action"], values.should_offer(access) ? "double" : "hold") << line;
        EXPECT_EQ(said["reply"], values.should_take() ? "take" : "drop") << line;
        EXPECT_NEAR(said["hold"], values.hold(access), 1e-6) << line;
        EXPECT_NEAR(said["take"], values.offered_and_taken(), 1e-6) << line;
        // So nobody is doubled who would beaver: see web/cube_advice.hpp.
        EXPECT_FALSE(values.offered_and_taken() < 0 && values.should_offer(access)) << line;
      }
    }
  }
}

TEST(Engine, ChecksThrowsThatSomebodyNoted) {
  const std::string seed = "throws\nseed evening\n";
  const auto text = [](int number, bool turned = false) {
    auto dice = sealed_throw("evening", "", number);
    if (turned) std::swap(dice[0], dice[1]);
    return std::to_string(dice[0]) + "-" + std::to_string(dice[1]);
  };
  const json right = ask(seed + "sealed " + commitment("evening") + "\nthrows " + text(0) + ", ? " +
                         text(2, true));
  EXPECT_EQ(right["fits"], true);
  ASSERT_EQ(right["throws"].size(), 3U);
  for (const json& each : right["throws"]) EXPECT_EQ(each["holds"], true) << right;
  EXPECT_FALSE(right["throws"][1].contains("noted"));
  EXPECT_EQ(ask(seed + "sealed " + commitment("morning"))["fits"], false);
  EXPECT_FALSE(ask(seed).contains("fits"));
  EXPECT_EQ(ask(seed + "first 2\nthrows " + text(2))["throws"][0]["holds"], true);
  for (const char* bad :
       {"throws 7-1", "throws 3-1 x", "throw 3", "opening 3 1 2", "first x", "sealed abc"})
    EXPECT_TRUE(ask(seed + bad).contains("error")) << bad;
  EXPECT_EQ(ask("throws\nthrows 3-1")["error"]["id"], "no-seed");
}

// In the opening one die is light's and the other dark's; exchanged they are another throw.
TEST(Engine, ChecksTheThrowsOfARecordAsTheyFell) {
  const std::string record = played_match("a third seed", 1);
  const json right = ask("throws\n" + record);
  EXPECT_EQ(right["fits"], true);
  EXPECT_GT(right["throws"].size(), 10U);
  for (const json& each : right["throws"]) EXPECT_EQ(each["holds"], true) << each;
  std::string turned = record;
  const std::size_t at = turned.find("opening ") + 8;
  std::swap(turned[at], turned[at + 2]);
  ASSERT_NE(turned, record);
  EXPECT_EQ(ask("throws\n" + turned)["throws"][0]["holds"], false);
}

TEST(Engine, AnswersNonsenseWithReasons) {
  for (const char* bad :
       {"", "\n\n", "nonsense", "position", "position\nposition light 25x1", "turn",
        "rule\nposition x", "turn\nposition light 24x2; dark 24x2; light to play 3-1\nmoves 9/7",
        "turn\nposition light 24x2; dark 24x2; light to play 3-1\nmoves junk",
        "turn\nposition light 24x2; dark 24x2; light to play 3-1\nfrom 99\nto -4",
        "sealed\nnumber x", "throws", "throws\nseed x\nthrows junk", "table\nopening 9 9",
        "decision\nbroken", "decision", "verify", "picture\nposition -"}) {
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

#include "app/race.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstring>
#include <filesystem>
#include <fstream>
#include <vector>

#include "chance/race_gammon.hpp"
#include "chance/rules_of_thumb.hpp"
#include "chance/table_file.hpp"
#include "table_store/table_store.hpp"
#include "tests/app/command_line.hpp"
#include "tests/app/temporary_folder.hpp"

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

TEST(Race, WritesTheSumOfEachRuleOfThumb) {
  const Json json = command({"race", "--json", large_race}).json();
  EXPECT_EQ(json["rules_of_thumb"][0]["sum"],
            "39 - 43 = -4, and -4 / 43 = -9.3%; double from 8%, take up to 12%");
  EXPECT_THAT(command({"race", large_race}).out, HasSubstr("39 - 43 = -4"));
}

/// A file that has the form of the three-checker table and holds one made-up position: what is
/// tested is the way from the file to the answer, not the numbers of the endgame.
void write_one_ending(const std::filesystem::path& path, const Board& board, Side on_roll,
                      float win, const ThreeCheckerCube& cube) {
  const ThreeCheckers index(3);
  const std::size_t cells = std::size_t{index.size()} * index.size();
  std::vector<std::byte> body(cells * (sizeof win + sizeof cube));
  const std::size_t cell = std::size_t{index.rank(board.of(on_roll))} * index.size() +
                           index.rank(board.of(opponent(on_roll)));
  std::memcpy(body.data() + cell * sizeof win, &win, sizeof win);
  std::memcpy(body.data() + cells * sizeof win + cell * sizeof cube, &cube, sizeof cube);
  TableHeader header;
  header.kind = static_cast<std::uint32_t>(TableKind::three_checker);
  header.checkers = 3;
  header.positions = index.size();
  header.body_bytes = body.size();
  header.body_checksum = table_checksum(body);
  seal(header);
  std::ofstream out(path, std::ios::binary);
  out.write(reinterpret_cast<const char*>(&header), sizeof header);  // NOLINT(*-reinterpret-cast)
  out.write(reinterpret_cast<const char*>(body.data()),              // NOLINT(*-reinterpret-cast)
            static_cast<std::streamsize>(body.size()));
}

TEST(Race, AnswersAboutContactWhereTheThreeCheckerTableIs) {
  const TemporaryFolder folder;
  const std::string line = "light 22x1 3x1; dark 4x2; light to roll";
  const Board board = read_position(line)->board;
  write_one_ending(folder.path() / three_checker_name(), board, Side::light, 0.75F,
                   {.theirs = 0.4F, .hold_mine = 0.7F, .hold_centred = 0.6F});
  const std::string where = folder.path().string();
  const Json json = command({"race", "--json", "--tables", where, line}).json();
  EXPECT_TRUE(json["contact"].get<bool>());
  EXPECT_EQ(json["known"], "exact");
  EXPECT_EQ(json["win"]["light"], 0.75);
  EXPECT_EQ(json["win"]["dark"], 0.25);
  EXPECT_EQ(json["light"]["pips"], 25);
  EXPECT_EQ(json["cube"]["advice"], "double, take");
  EXPECT_THAT(command({"race", "--tables", where, line}).out,
              HasSubstr("light wins 75.00% of the games, dark 25.00% (exact)"));
  const Outcome batch = command({"race", "--batch", "--tables", where}, line + "\n");
  EXPECT_EQ(batch.lines()[0]["win"]["light"], 0.75);
}

TEST(Race, SaysHowToGetTheNumberOfAnEndingWithContact) {
  const Outcome answer =
      command({"race", "--tables", "/no/such/folder", "light 22x1 3x1; dark 4x2; light to roll"});
  EXPECT_EQ(answer.exit, exit_bad_input);
  EXPECT_THAT(answer.err, HasSubstr("tables build --three-checker"));
  EXPECT_THAT(command({"race", "start; light to roll"}).err, HasSubstr("pointwright worth"));
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

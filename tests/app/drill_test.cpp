#include "finder/drill.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sqlite3.h>

#include <fstream>

#include "app/deck.hpp"
#include "app/sheet.hpp"
#include "tests/app/command_line.hpp"
#include "tests/app/temporary_folder.hpp"

namespace pointwright::app {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

TEST(DrillVerb, WritesALessonThatCheckProves) {
  const TemporaryFolder folder;
  const std::string path = (folder / "larger.md").string();
  const Outcome made = command({"drill", "larger-die", "--count", "5", "--output", path});
  EXPECT_EQ(made.exit, exit_fine) << made.err;
  EXPECT_EQ(command({"check", path}).exit, exit_fine);
}

TEST(DrillVerb, WritesASheetAndJson) {
  const Outcome sheet = command({"drill", "shots", "--count", "4", "--as", "sheet"});
  EXPECT_THAT(sheet.out, StartsWith("<!DOCTYPE html>"));
  EXPECT_THAT(sheet.out, HasSubstr("<h1>Answers</h1>"));
  const Json json = command({"drill", "must-play", "--count", "4", "--as", "json"}).json();
  ASSERT_EQ(json["exercises"].size(), 4U);
  for (const Json& each : json["exercises"]) {
    const auto exercise = exercise_from(each);
    ASSERT_TRUE(exercise.has_value());
    EXPECT_EQ(exercise_object(*exercise), each);
  }
}

TEST(DrillVerb, RefusesWhatItCannotDo) {
  EXPECT_THAT(command({"drill", "larger-dye"}).err, HasSubstr("did you mean `larger-die`?"));
  for (const std::vector<std::string>& line : std::vector<std::vector<std::string>>{
           {"drill"},
           {"drill", "shots", "--query", "forced"},
           {"drill", "--query", "froced"},
           {"drill", "shots", "--count", "0"},
           {"drill", "shots", "--names", "Ivory"},
           {"drill", "--query", "larger-die and roll double"},
           {"drill", "--deck", "/nowhere/at/all.deck"},
           {"drill", "--deck", "x.deck", "--today", "2026-02-30"}})
    EXPECT_EQ(command(line).exit, exit_bad_input) << line.back();
  EXPECT_THAT(command({"drill", "--topics"}).out, HasSubstr("pip-counts"));
}

TEST(DrillVerb, AFileThatIsNoDeckIsRefused) {
  const TemporaryFolder folder;
  const std::string path = (folder / "letter.txt").string();
  std::ofstream(path) << std::string(4000, 'x');
  const Outcome refused = command({"drill", "--deck", path});
  EXPECT_EQ(refused.exit, exit_bad_input);
  EXPECT_THAT(refused.err, HasSubstr("cannot be used"));
}

TEST(DrillVerb, WhatIsMissedComesBackTomorrow) {
  const TemporaryFolder folder;
  const std::string path = (folder / "evenings.deck").string();
  const auto on = [&](const std::string& day, const std::string& input) {
    return command({"drill", "entering", "--count", "3", "--deck", path, "--today", day}, input);
  };
  finder::DrillOptions options;
  options.count = 3;
  const auto set = finder::drill(*finder::find_topic("entering"), options);
  ASSERT_EQ(set.size(), 3U);
  std::string answers;
  for (std::size_t i = 0; i < 2; ++i) answers += std::to_string(set[i].number) + "\n";
  const Outcome first = on("2026-03-01", answers + "\n");
  EXPECT_THAT(first.out, HasSubstr("3 new, 3 due of 3."));
  EXPECT_THAT(first.out, HasSubstr("2 of 3 right. Next in 1 day."));
  // All come back tomorrow: two from the first box, one missed.
  EXPECT_THAT(on("2026-03-01", "").out, HasSubstr("0 new, 0 due of 3."));
  // The missed one is asked first, and missed again.
  EXPECT_THAT(on("2026-03-02", "\n" + answers).out, HasSubstr("0 new, 3 due of 3."));
  // The two that were in the second box rest for two days now.
  EXPECT_THAT(on("2026-03-03", "").out, HasSubstr("0 new, 1 due of 3."));
  EXPECT_THAT(on("2026-03-04", "").out, HasSubstr("0 new, 3 due of 3."));
}

/// A deck with three exercises in a folder.
std::string deck_in(const TemporaryFolder& folder) {
  const std::string path = (folder / "evenings.deck").string();
  command({"drill", "entering", "--count", "3", "--deck", path, "--today", "2026-03-01"}, "");
  return path;
}

void change(const std::string& path, const char* statement) {
  sqlite3* database = nullptr;
  ASSERT_EQ(sqlite3_open(path.c_str(), &database), SQLITE_OK);
  EXPECT_EQ(sqlite3_exec(database, statement, nullptr, nullptr, nullptr), SQLITE_OK);
  sqlite3_close(database);
}

TEST(Deck, ADamagedCardIsNamedAndTheOthersAreAsked) {
  const TemporaryFolder folder;
  const std::string path = deck_in(folder);
  change(path, "UPDATE card SET exercise = '{' WHERE rowid = 1");
  const Outcome asked = command({"drill", "--deck", path, "--today", "2026-03-01"}, "");
  EXPECT_EQ(asked.exit, exit_fine);
  EXPECT_THAT(asked.err, HasSubstr("of the deck is damaged"));
  EXPECT_THAT(asked.out, HasSubstr("0 new, 2 due of 3."));
  change(path, "UPDATE card SET box = 77 WHERE rowid = 2");
  EXPECT_THAT(command({"drill", "--deck", path, "--today", "2026-03-01"}, "").out,
              HasSubstr("0 new, 1 due of 3."));
}

TEST(Deck, WhatCannotBeWrittenIsReported) {
  const TemporaryFolder folder;
  const std::string path = deck_in(folder);
  // The database refuses, as it does on a full disk.
  change(
      path,
      "CREATE TRIGGER full_add BEFORE INSERT ON card BEGIN SELECT RAISE(ABORT, 'no room'); END;"
      "CREATE TRIGGER full_note BEFORE UPDATE ON card BEGIN SELECT RAISE(ABORT, 'no room'); END");
  const Outcome added =
      command({"drill", "shots", "--count", "3", "--deck", path, "--today", "2026-03-01"}, "");
  EXPECT_EQ(added.exit, exit_bad_input);
  EXPECT_THAT(added.err, HasSubstr("cannot be written"));
  EXPECT_THAT(added.err, HasSubstr("no room"));
  const Outcome noted = command({"drill", "--deck", path, "--today", "2026-03-01"}, "1\n2\n");
  EXPECT_EQ(noted.exit, exit_bad_input);
  EXPECT_THAT(noted.err, HasSubstr("cannot be written: no room"));
}

TEST(Deck, DaysAreCountedByTheCalendar) {
  EXPECT_EQ(day_of("1970-01-01"), Day{0});
  EXPECT_EQ(day_of("2000-03-01"), Day{11017});
  EXPECT_EQ(day_of("2026-02-29"), std::nullopt);
  EXPECT_EQ(day_of("2026-2-9"), std::nullopt);
  EXPECT_EQ(day_of("soon"), std::nullopt);
}

}  // namespace
}  // namespace pointwright::app

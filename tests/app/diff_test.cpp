#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "app/templates.hpp"
#include "tests/app/command_line.hpp"
#include "tests/app/temporary_folder.hpp"

/// The verb `diff`.
namespace pointwright::app {
namespace {

namespace fs = std::filesystem;
using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

/// Two versions of a lesson.
class Versions {
 public:
  Versions() {
    fs::create_directories(folder_ / "old");
    fs::create_directories(folder_ / "new");
    write(old_file(), lesson_template("A lesson"));
    write(new_file(), lesson_template("A lesson"));
  }
  [[nodiscard]] fs::path old_file() const { return folder_ / "old/lesson.md"; }
  [[nodiscard]] fs::path new_file() const { return folder_ / "new/lesson.md"; }
  [[nodiscard]] std::string path(const std::string& name) const {
    return (folder_ / name).string();
  }
  void replace(const std::string& before, const std::string& after) const {
    std::string text = contents(new_file());
    ASSERT_NE(text.find(before), std::string::npos);
    write(new_file(), text.replace(text.find(before), before.size(), after));
  }
  [[nodiscard]] Outcome diff(const std::vector<std::string>& more = {}) const {
    std::vector<std::string> words{"diff", old_file().string(), new_file().string()};
    words.insert(words.end(), more.begin(), more.end());
    return command(words);
  }

 private:
  static void write(const fs::path& file, const std::string& text) {
    std::ofstream(file, std::ios::binary) << text;
  }
  TemporaryFolder folder_;
};

std::vector<std::string> stale_files(const Outcome& answer) {
  std::vector<std::string> files;
  const Json json = answer.json();
  for (const Json& item : json["stale"]) files.push_back(item["file"]);
  return files;
}

/// The first sentence that somebody says in the lesson of `pointwright new`.
std::string spoken_sentence() {
  const std::string text = lesson_template("A lesson");
  const std::size_t show = text.find("```show");
  const std::size_t begin = text.find('"', show) + 1;
  return text.substr(begin, text.find('"', begin) - begin);
}

TEST(Diff, EqualVersionsAreSaidToBe) {
  const Versions versions;
  const Outcome answer = versions.diff();
  EXPECT_EQ(answer.exit, exit_fine) << answer.err;
  EXPECT_EQ(answer.out, "nothing has changed\n");
  EXPECT_THAT(versions.diff({"--json"}).json()["changes"], IsEmpty());
  EXPECT_THAT(stale_files(versions.diff({"--json"})), IsEmpty());
  EXPECT_EQ(versions.diff({"--note"}).out, "");
}

TEST(Diff, AChangedSentenceMakesFilmsStaleButNotEmptyBoards) {
  const Versions versions;
  versions.replace(spoken_sentence(), "Here is something quite different to listen to.");
  const Outcome answer = versions.diff({"--json"});
  EXPECT_EQ(answer.exit, exit_no) << answer.out;
  ASSERT_EQ(answer.json()["changes"].size(), 1U) << answer.out;
  EXPECT_EQ(answer.json()["changes"][0]["what"], "words");
  const auto stale = stale_files(answer);
  EXPECT_THAT(stale, Contains("captions/lesson.vtt"));
  EXPECT_THAT(stale, Contains("handout.pdf"));
  EXPECT_THAT(stale, Contains(HasSubstr("clips/")));
  EXPECT_THAT(stale, Not(Contains("blank-boards.pdf")));
  EXPECT_THAT(stale, Not(Contains("stage-sheets.csv")));
  EXPECT_THAT(versions.diff({"--note"}).out,
              HasSubstr("The teacher says now: Here is something quite different"));
}

TEST(Diff, WhatIsStaleIsWhatABuildWouldMakeAgain) {
  const Versions versions;
  const std::string kinds = "page,handout,slides,script,stage,timeline,stills,captions";
  const auto build = [&](const fs::path& lesson) {
    return command(
        {"build", lesson.string(), "-o", versions.path("made"), "--make", kinds, "--json"});
  };
  ASSERT_EQ(build(versions.old_file()).exit, exit_fine);
  versions.replace(spoken_sentence(), "Here is something quite different to listen to.");
  const auto stale =
      stale_files(command({"diff", versions.path("made"), versions.new_file().string(), "--json"}));
  auto made = build(versions.new_file()).json()["made"].get<std::vector<std::string>>();
  EXPECT_THAT(stale, testing::UnorderedElementsAreArray(made));
  EXPECT_THAT(stale, Not(Contains(HasSubstr("clips/")))) << "none were made";
}

TEST(Diff, AKeptStoryboardIsAVersion) {
  const Versions versions;
  const std::string kept = versions.path("kept.json");
  ASSERT_EQ(command({"build", versions.old_file().string(), "-o", versions.path("page.html"),
                     "--storyboard", kept})
                .exit,
            exit_fine);
  EXPECT_EQ(command({"diff", kept, versions.new_file().string()}).out, "nothing has changed\n");
}

TEST(Diff, ALessonMayHaveAnotherName) {
  const Versions versions;
  versions.replace(spoken_sentence(), "Here is something quite different to listen to.");
  const std::string renamed = versions.path("lesson-corrected.md");
  fs::copy_file(versions.new_file(), renamed);
  const Json answer = command({"diff", versions.old_file().string(), renamed, "--json"}).json();
  ASSERT_EQ(answer["changes"].size(), 1U) << answer;
  EXPECT_EQ(answer["changes"][0]["what"], "words");
}

TEST(Diff, SaysWhatCannotBeCompared) {
  const Versions versions;
  EXPECT_EQ(command({"diff", versions.old_file().string()}).exit, exit_bad_input);
  EXPECT_EQ(command({"diff", "no-such.md", "nor-this.md"}).exit, exit_bad_input);
  versions.replace("pips light 167", "pips light 166");
  const Outcome unproved = versions.diff();
  EXPECT_EQ(unproved.exit, exit_bad_input);
  EXPECT_THAT(unproved.err, HasSubstr("not proved"));
  const std::string broken = versions.path("broken.json");
  std::ofstream(broken) << "{\"version\": 1";
  EXPECT_THAT(command({"diff", broken, broken}).err, HasSubstr("is no storyboard"));
}

}  // namespace
}  // namespace pointwright::app

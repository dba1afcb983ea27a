#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <csignal>
#include <filesystem>
#include <fstream>

#include "app/files.hpp"
#include "app/interrupt.hpp"
#include "app/make/folder.hpp"
#include "app/templates.hpp"
#include "tests/app/command_line.hpp"
#include "tests/app/temporary_folder.hpp"

/// The folder that `build --make` writes.
namespace pointwright::app {
namespace {

namespace fs = std::filesystem;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::UnorderedElementsAre;

Product product(std::string kind, std::string path, const std::string& text) {
  return text_product(kind, std::move(path), text, [text] { return text; });
}

Product failing(std::string path) {
  return {.kind = "broken", .path = std::move(path), .recipe = "", .make = [](const fs::path&) {
            return std::optional{failure("cannot-write", "the disk is full", "make room")};
          }};
}

void write(const fs::path& file, const std::string& text) {
  std::ofstream(file, std::ios::binary) << text;
}

TEST(MakeFolder, MakesOnlyWhatHasChanged) {
  const TemporaryFolder home;
  const fs::path out = home / "out";
  const auto first = make_folder(
      out, {.products = {product("a", "one.txt", "1"), product("a", "deep/two.txt", "2")}});
  ASSERT_TRUE(first.ok());
  EXPECT_THAT(first->made, ElementsAre("one.txt", "deep/two.txt"));
  const auto second = make_folder(
      out, {.products = {product("a", "one.txt", "1"), product("a", "deep/two.txt", "changed")}});
  ASSERT_TRUE(second.ok());
  EXPECT_THAT(second->kept, ElementsAre("one.txt"));
  EXPECT_THAT(second->made, ElementsAre("deep/two.txt"));
  EXPECT_EQ(contents(out / "deep/two.txt"), "changed");
  const auto afresh =
      make_folder(out, {.products = {product("a", "one.txt", "1")}, .afresh = true});
  EXPECT_THAT(afresh->made, ElementsAre("one.txt"));
  EXPECT_THAT(afresh->removed, ElementsAre("deep/two.txt"));
  EXPECT_FALSE(fs::exists(out / "deep/two.txt"));
  EXPECT_THAT(home.names(), ElementsAre("out"));
}

TEST(MakeFolder, MakesAgainWhatSomebodyHasChanged) {
  const TemporaryFolder home;
  const fs::path out = home / "out";
  ASSERT_TRUE(make_folder(out, {.products = {product("a", "one.txt", "1")}}).ok());
  write(out / "one.txt", "scribbled over");
  const auto again = make_folder(out, {.products = {product("a", "one.txt", "1")}});
  EXPECT_THAT(again->made, ElementsAre("one.txt"));
  EXPECT_EQ(contents(out / "one.txt"), "1");
}

TEST(MakeFolder, KeepsOtherKindsAndOtherPeoplesFiles) {
  const TemporaryFolder home;
  const fs::path out = home / "out";
  ASSERT_TRUE(make_folder(out, {.products = {product("a", "a.txt", "a"), product("b", "b.txt", "b"),
                                             product("b", "c.txt", "c")}})
                  .ok());
  write(out / "mine.txt", "my notes");
  fs::create_directories(out / "empty");
  const auto again =
      make_folder(out, {.products = {product("a", "a.txt", "new")},
                        .others = {product("b", "b.txt", "b"), product("b", "c.txt", "changed")}});
  ASSERT_TRUE(again.ok());
  EXPECT_EQ(contents(out / "b.txt"), "b");
  EXPECT_EQ(contents(out / "mine.txt"), "my notes");
  EXPECT_TRUE(fs::is_directory(out / "empty"));
  EXPECT_THAT(again->stale, ElementsAre("c.txt")) << "made from an older lesson";
  // What was carried over is still known as ours.
  const auto third = make_folder(out, {.products = {product("b", "b.txt", "b")}});
  EXPECT_THAT(third->kept, ElementsAre("b.txt"));
  EXPECT_THAT(third->removed, ElementsAre("c.txt"));
}

TEST(MakeFolder, AFailureLeavesEverythingAsItWas) {
  const TemporaryFolder home;
  const fs::path out = home / "out";
  const auto nothing = make_folder(out, {.products = {product("a", "a.txt", "a"), failing("b")}});
  ASSERT_FALSE(nothing.ok());
  EXPECT_THAT(home.names(), IsEmpty());
  ASSERT_TRUE(make_folder(out, {.products = {product("a", "a.txt", "a")}}).ok());
  EXPECT_FALSE(make_folder(out, {.products = {product("a", "a.txt", "new"), failing("b")}}).ok());
  EXPECT_EQ(contents(out / "a.txt"), "a");
  EXPECT_THAT(home.names(), ElementsAre("out"));
}

TEST(MakeFolder, AnInterruptLeavesEverythingAsItWas) {
  const TemporaryFolder home;
  const fs::path out = home / "out";
  ASSERT_TRUE(make_folder(out, {.products = {product("a", "a.txt", "a")}}).ok());
  const InterruptWatch watch;
  const auto stopped =
      make_folder(out, {.products = {product("a", "a.txt", "new"), product("a", "b.txt", "b")},
                        .progress = [](std::size_t done, const Product&) {
                          if (done == 1) std::raise(SIGINT);
                        }});
  ASSERT_FALSE(stopped.ok());
  EXPECT_EQ(stopped.error().faults.front().id, "interrupted");
  EXPECT_EQ(contents(out / "a.txt"), "a");
  EXPECT_THAT(home.names(), ElementsAre("out"));
}

TEST(MakeFolder, NeverTouchesWhatItDidNotMake) {
  const TemporaryFolder home;
  fs::create_directories(home / "theirs");
  write(home / "theirs/letter.txt", "Dear all");
  write(home / "file", "x");
  for (const std::string name : {"theirs", "file", "."}) {
    const auto refused = make_folder(home / name, {.products = {product("a", "a.txt", "a")}});
    ASSERT_FALSE(refused.ok()) << name;
    EXPECT_EQ(refused.error().faults.front().id, "already-there");
  }
  EXPECT_EQ(contents(home / "theirs/letter.txt"), "Dear all");
  // Nor one file in a folder of its own.
  ASSERT_TRUE(make_folder(home / "out", {.products = {product("a", "a.txt", "a")}}).ok());
  write(home / "out/b.txt", "theirs");
  EXPECT_FALSE(make_folder(home / "out", {.products = {product("b", "b.txt", "b")}}).ok());
  EXPECT_EQ(contents(home / "out/b.txt"), "theirs");
}

TEST(MakeFolder, SweepsUpAfterABuildThatWasKilled) {
  const TemporaryFolder home;
  fs::create_directories(home / ".out.999999999.part");
  fs::create_directories(home / ".out.notes.part");
  ASSERT_TRUE(make_folder(home / "out", {.products = {product("a", "a.txt", "a")}}).ok());
  EXPECT_THAT(home.names(), UnorderedElementsAre("out", ".out.notes.part"));
}

/// A lesson, and its folder of outputs.
class Lesson {
 public:
  Lesson() { write(path(), lesson_template("A lesson")); }
  [[nodiscard]] fs::path path() const { return home_ / "lesson.md"; }
  [[nodiscard]] std::string out() const { return (home_ / "out").string(); }
  [[nodiscard]] Outcome build(const std::string& make,
                              const std::vector<std::string>& more = {}) const {
    std::vector<std::string> words{"build", path().string(), "--output", out(), "--make",
                                   make,    "--json"};
    words.insert(words.end(), more.begin(), more.end());
    return command(words);
  }
  void replace(const std::string& old_text, const std::string& new_text) const {
    std::string text = contents(path());
    ASSERT_NE(text.find(old_text), std::string::npos);
    write(path(), text.replace(text.find(old_text), old_text.size(), new_text));
  }

 private:
  TemporaryFolder home_;
};

TEST(Make, ScriptAndCaptions) {
  const Lesson lesson;
  const Outcome built = lesson.build("captions, script");
  ASSERT_EQ(built.exit, exit_fine) << built.out << built.err;
  EXPECT_THAT(
      built.json()["made"].get<std::vector<std::string>>(),
      ElementsAre("script.pdf", "shots.csv", "captions/lesson.vtt", "captions/lesson.srt",
                  "captions/_course.vtt", "captions/_course.srt", "captions/_chapters.vtt"));
  const Outcome again = lesson.build("captions,script");
  EXPECT_THAT(again.json()["made"], IsEmpty());
  EXPECT_EQ(again.json()["kept"].size(), 7U);
}

TEST(Make, SaysWhatCannotBeMade) {
  const Lesson lesson;
  EXPECT_THAT(lesson.build("caption").out, HasSubstr("did you mean `captions`?"));
  EXPECT_EQ(lesson.build("captions,").exit, exit_bad_input);
  EXPECT_THAT(lesson.build("captions", {"--pace", "39"}).out, HasSubstr("from 40 to 400"));
  EXPECT_THAT(command({"build", lesson.path().string(), "--make", "script"}).err,
              HasSubstr("not said where the folder goes"));
  EXPECT_FALSE(fs::exists(lesson.out()));
}

TEST(Make, AChangedSentenceMakesOnlyWhatItMust) {
  const Lesson lesson;
  const std::string all = "page,handout,script,stage,captions";
  ASSERT_EQ(lesson.build(all).exit, exit_fine);
  // A new paragraph of prose moves lines in the file, but nobody says it.
  lesson.replace("\n---\n", "\n---\nGood evening.\n");
  const Outcome prose = lesson.build(all);
  ASSERT_EQ(prose.exit, exit_fine) << prose.out;
  const auto made = prose.json()["made"].get<std::vector<std::string>>();
  EXPECT_THAT(made, Contains("handout.pdf"));
  EXPECT_THAT(made, testing::Not(Contains("stage-sheets.csv")));
  EXPECT_THAT(made, testing::Not(Contains(HasSubstr("captions/"))));
  EXPECT_THAT(made, testing::Not(Contains("blank-boards.pdf")));
  EXPECT_THAT(made, testing::Not(Contains("script.pdf"))) << "nobody says it";
  EXPECT_THAT(made, testing::Not(Contains("stage-sheets.pdf")));
}

/// A lesson of two shots.
constexpr const char* two_shots = R"(---
title: Two shots
---
One.

```board first
start; light to play 3-1
```

```show
8/5 6/5 "The first sentence."
```

Two.

```board second
light 6x2; dark 5x2; light to play 6-4
```

```show
6/off 6/2 "The second sentence."
```
)";

TEST(Make, AChangedSpokenSentenceMakesOneShotAgain) {
  const Lesson lesson;
  write(lesson.path(), two_shots);
  const std::string kinds = "page,handout,slides,script,stage,timeline,clips,stills,voice,captions";
  const std::vector<std::string> small{"--size", "720p", "--fps", "24"};
  const Outcome first = lesson.build(kinds, small);
  ASSERT_EQ(first.exit, exit_fine) << first.out << first.err;
  lesson.replace("The second sentence.", "The second sentence, and a little more.");
  const Outcome again = lesson.build(kinds, small);
  ASSERT_EQ(again.exit, exit_fine) << again.out;
  EXPECT_THAT(
      again.json()["made"].get<std::vector<std::string>>(),
      UnorderedElementsAre("lesson.html", "storyboard.json", "handout.pdf", "slides.html",
                           "script.pdf", "shots.csv", "timeline.otio", "clips/lesson--second.mp4",
                           "clips/lesson--second.vtt", "voice/lesson--second-guide.wav",
                           "captions/lesson.vtt", "captions/lesson.srt", "captions/_course.vtt",
                           "captions/_course.srt", "captions/_chapters.vtt"));
  EXPECT_THAT(again.json()["kept"].get<std::vector<std::string>>(),
              UnorderedElementsAre("blank-boards.pdf", "stage-sheets.pdf", "stage-sheets.csv",
                                   "clips/lesson--first.mp4", "clips/lesson--first.vtt",
                                   "stills/lesson--first.png", "stills/lesson--second.png",
                                   "voice/lesson--first-guide.wav"));
}

TEST(Make, MakesNothingOfALessonThatIsFalse) {
  const Lesson lesson;
  lesson.replace("pips light 167", "pips light 166");
  EXPECT_EQ(lesson.build("all").exit, exit_no);
  EXPECT_FALSE(fs::exists(lesson.out()));
}

}  // namespace
}  // namespace pointwright::app

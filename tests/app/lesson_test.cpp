#include "lesson/lesson.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/live.hpp"
#include "app/templates.hpp"
#include "storyboard/json.hpp"
#include "studio/page.hpp"
#include "tests/app/command_line.hpp"
#include "tests/app/temporary_folder.hpp"

/// The verbs that work on lessons: check, build and new.
namespace pointwright::app {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

/// A folder with a lesson in it, in which one text may be put in place of another.
class LessonFile {
 public:
  explicit LessonFile(const std::string& old_text = {}, const std::string& new_text = {}) {
    std::string text = lesson_template("A lesson");
    if (!old_text.empty()) text.replace(text.find(old_text), old_text.size(), new_text);
    std::ofstream(path(), std::ios::binary) << text;
  }
  [[nodiscard]] std::string path() const { return (folder_ / "lesson.md").string(); }
  [[nodiscard]] std::string beside(const std::string& name) const {
    return (folder_ / name).string();
  }
  [[nodiscard]] std::vector<std::string> names() const { return folder_.names(); }

 private:
  TemporaryFolder folder_;
};

TEST(New, ALessonPassesCheck) {
  const TemporaryFolder folder;
  const std::string path = (folder / "coming-in.md").string();
  const Outcome made = command({"new", "lesson", (folder / "coming-in").string()});
  EXPECT_EQ(made.exit, exit_fine);
  EXPECT_EQ(made.out, path + "\n");
  EXPECT_THAT(contents(path), HasSubstr("title: \"Coming in\"\n"));
  const Outcome checked = command({"check", path});
  EXPECT_EQ(checked.exit, exit_fine) << checked.err;
  EXPECT_EQ(checked.err, "");
}

TEST(New, ACoursePassesCheck) {
  const TemporaryFolder folder;
  const std::string path = (folder / "evening").string();
  const Outcome made = command({"new", "course", path + "/", "--json", "--title", "E: \"x\" \\ #"});
  ASSERT_EQ(made.exit, exit_fine);
  EXPECT_EQ(made.json()["created"].size(), 3U);
  const Outcome checked = command({"check", "--json", path});
  EXPECT_EQ(checked.exit, exit_fine) << checked.out;
  EXPECT_EQ(checked.json()["chapters"], 2);
  EXPECT_THAT(checked.json()["diagnostics"], IsEmpty());
}

TEST(New, NeverOverwrites) {
  const LessonFile lesson("A lesson", "Mine");
  const std::string mine = contents(lesson.path());
  const Outcome again = command({"new", "lesson", lesson.path()});
  EXPECT_EQ(again.exit, exit_bad_input);
  EXPECT_THAT(again.err, HasSubstr("already there"));
  EXPECT_EQ(command({"new", "course", lesson.path()}).exit, exit_bad_input);
  EXPECT_EQ(contents(lesson.path()), mine);
}

TEST(New, SaysWhatIsMissing) {
  EXPECT_THAT(command({"new"}).err, HasSubstr("not said what to start"));
  EXPECT_THAT(command({"new", "lesson"}).err, HasSubstr("the lesson has no name"));
  EXPECT_THAT(command({"new", "coarse", "x"}).err, HasSubstr("did you mean `course`?"));
}

TEST(Check, AFalseClaimIsShownWithWhatIsTrue) {
  const LessonFile lesson("pips light 167", "pips light 166");
  const Outcome checked = command({"check", lesson.path()});
  EXPECT_EQ(checked.exit, exit_no);
  EXPECT_EQ(checked.out, "");
  EXPECT_THAT(checked.err, HasSubstr(lesson.path() + ":"));
  EXPECT_THAT(checked.err, HasSubstr("pips light 166"));
  EXPECT_THAT(checked.err, HasSubstr("pips light 167"));
  const Json json = command({"check", "--json", lesson.path()}).json();
  EXPECT_EQ(json["outcome"], "false-claim");
  EXPECT_EQ(json["claims"]["written"], 4);
  EXPECT_EQ(json["claims"]["proved"], 3);
  EXPECT_EQ(json["claims"]["refuted"], 1);
  EXPECT_EQ(json["diagnostics"].at(0)["file"], lesson.path());
}

TEST(Check, WhatCannotBeReadIsBadInput) {
  const LessonFile lesson("legal 8/5", "leagl 8/5");
  const Outcome checked = command({"check", lesson.path()});
  EXPECT_EQ(checked.exit, exit_bad_input);
  EXPECT_THAT(checked.err, HasSubstr("did you mean `legal`?"));
  for (const char* source : {"/nowhere/at-all.md", "/dev/null", "/tmp"}) {
    const Outcome none = command({"check", source});
    EXPECT_EQ(none.exit, exit_bad_input) << source;
    EXPECT_FALSE(none.err.empty());
  }
  EXPECT_EQ(command({"check"}).exit, exit_bad_input);
}

TEST(Build, WritesThePageAndTheStoryboardOfTheCompiler) {
  const LessonFile lesson;
  const Outcome built = command({"build", lesson.path(), "--output", lesson.beside("page.html"),
                                 "--storyboard", lesson.beside("story.json")});
  ASSERT_EQ(built.exit, exit_fine) << built.err;
  EXPECT_EQ(built.out, lesson.beside("page.html") + "\n" + lesson.beside("story.json") + "\n");
  const std::string text = lesson_template("A lesson");
  const auto compilation = lesson::compile_lesson(
      {.read = [&](const std::string&) { return Result<std::string, lesson::ReadFailure>(text); }},
      "lesson.md");
  const LiveParts live = course_parts();
  EXPECT_EQ(contents(lesson.beside("page.html")), *page_html(compilation.storyboard, &live));
  ASSERT_EQ(
      command({"build", lesson.path(), "--plain", "--output", lesson.beside("plain.html")}).exit,
      exit_fine);
  EXPECT_EQ(contents(lesson.beside("plain.html")), *page_html(compilation.storyboard));
  EXPECT_EQ(Json::parse(contents(lesson.beside("story.json"))),
            Json::parse(to_json(compilation.storyboard)));
}

TEST(Build, AFolderReceivesThePageUnderTheNameOfTheSource) {
  const LessonFile lesson;
  const Outcome made = command({"build", "--json", lesson.path(), "-o", lesson.beside("a/b/")});
  ASSERT_EQ(made.exit, exit_fine) << made.out;
  EXPECT_EQ(made.json()["page"], lesson.beside("a/b/lesson.html"));
  const Outcome there = command({"build", lesson.path(), "-o", lesson.beside("a/b")});
  EXPECT_EQ(there.out, lesson.beside("a/b/lesson.html") + "\n");
  EXPECT_FALSE(contents(lesson.beside("a/b/lesson.html")).empty());
}

TEST(Build, NothingIsWrittenUnlessAllIsProved) {
  const LessonFile lesson("pips light 167", "pips light 166");
  std::ofstream(lesson.beside("page.html")) << "the old page";
  const Outcome built = command({"build", lesson.path(), "-o", lesson.beside("page.html"),
                                 "--storyboard", lesson.beside("story.json")});
  EXPECT_EQ(built.exit, exit_no);
  EXPECT_THAT(built.err, HasSubstr("no page was written"));
  EXPECT_EQ(contents(lesson.beside("page.html")), "the old page");
  EXPECT_EQ(lesson.names().size(), 2U);
}

TEST(Build, AFullDiskIsReported) {
  const LessonFile lesson;
  const Outcome built = command({"build", lesson.path(), "-o", "/dev/full"});
  EXPECT_EQ(built.exit, exit_bad_input);
  EXPECT_THAT(built.err, HasSubstr("No space left on device"));
}

TEST(Build, TheDemoCourseIsProvedAndBuilt) {
  const TemporaryFolder folder;
  const Outcome built =
      command({"build", "--json", POINTWRIGHT_SOURCE_DIR "/lessons/first-evenings", "-o",
               (folder / "course.html").string()});
  ASSERT_EQ(built.exit, exit_fine) << built.out;
  EXPECT_GE(built.json()["chapters"], 12);
  EXPECT_GE(built.json()["claims"]["proved"], 120);
  EXPECT_EQ(built.json()["claims"]["proved"], built.json()["claims"]["written"]);
  EXPECT_THAT(folder.names(), ElementsAre("course.html"));
}

}  // namespace
}  // namespace pointwright::app

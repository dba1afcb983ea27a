#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "lesson/display.hpp"
#include "lesson/report.hpp"
#include "tests/lesson/support.hpp"

namespace pointwright::lesson {
namespace {

/// One diagnostic about the only occurrence of `part` in a text.
std::string rendered(const std::string& text, std::string_view part, RenderOptions options = {}) {
  const SourceText source("a.md", text);
  Report report(source);
  const std::size_t begin = text.find(part);
  report.add(kinds::bad_line, {begin, begin + part.size()}, "this is wrong");
  return render(report.take().front(), source, options);
}

TEST(Render, UnderlinesTheText) {
  EXPECT_EQ(rendered("one\ntwo three\nfour\n", "three"),
            "a.md:2:5: error[bad-line]: this is wrong\n"
            "     2 | two three\n"
            "       |     ^^^^^\n");
}

TEST(Render, CountsCharactersAndMarksColumns) {
  // The column counts characters; the carets allow for wide letters and combining marks.
  EXPECT_EQ(rendered("日本 é fault\n", "fault"),
            "a.md:1:6: error[bad-line]: this is wrong\n"
            "     1 | 日本 é fault\n"
            "       |        ^^^^^\n");
  EXPECT_EQ(rendered("e\u0301 fault\n", "fault"),
            "a.md:1:4: error[bad-line]: this is wrong\n"
            "     1 | e\u0301 fault\n"
            "       |   ^^^^^\n");
  EXPECT_EQ(rendered("\tfault 漢字", "漢字"),
            "a.md:1:8: error[bad-line]: this is wrong\n"
            "     1 |  fault 漢字\n"
            "       |        ^^^^\n");
}

TEST(Render, LetsNoControlCharacterThrough) {
  const std::string text = rendered("\x1b[31m red \u202E fault\n", "fault");
  EXPECT_EQ(text.find('\x1b'), std::string::npos);
  EXPECT_EQ(text.find("\u202E"), std::string::npos);
  EXPECT_NE(text.find("\uFFFD[31m red \uFFFD fault"), std::string::npos) << text;
}

TEST(Render, ShowsTheFaultyPartOfALongLine) {
  const std::string text =
      rendered(std::string(5000, 'a') + " fault " + std::string(5000, 'b'), "fault", {80, false});
  EXPECT_NE(text.find(" fault "), std::string::npos);
  std::size_t begin = 0;
  while (begin < text.size()) {
    const std::size_t end = text.find('\n', begin);
    EXPECT_LE(end - begin, 80U) << text;
    begin = end + 1;
  }
}

TEST(Render, ColoursOnlyWhenAsked) {
  EXPECT_EQ(rendered("fault", "fault").find('\x1b'), std::string::npos);
  EXPECT_NE(rendered("fault", "fault", {100, true}).find("\x1b[1;31m"), std::string::npos);
}

TEST(Render, MarksAnEmptyPlaceAtTheEnd) {
  const SourceText source("a.md", "one\ntwo");
  Report report(source);
  report.add(kinds::bad_line, {7, 7}, "something is missing");
  EXPECT_EQ(render(report.take().front(), source),
            "a.md:2:4: error[bad-line]: something is missing\n"
            "     2 | two\n"
            "       |    ^\n");
}

TEST(Json, SaysTheSame) {
  const Compilation result = testing::compile_claims("start", "pips light 1");
  const auto json = to_json(result.diagnostics.front(), result.sources.front());
  EXPECT_EQ(json["id"], "false-claim");
  EXPECT_EQ(json["severity"], "error");
  EXPECT_EQ(json["file"], "lesson.md");
  EXPECT_EQ(json["line"], 8);
  EXPECT_EQ(json["column"], 12);
  EXPECT_EQ(json["end_column"], 13);
  EXPECT_EQ(json["truth"], "Light has 167 pips to go.");
  EXPECT_EQ(json["fix"]["replacement"], "pips light 167");
  EXPECT_EQ(json["fix"]["column"], 1);
}

TEST(Display, WrapsAtSpaces) {
  EXPECT_EQ(wrapped("one two three four", 9, 2), "one two\n  three\n  four");
  EXPECT_EQ(wrapped("overlongword x", 4, 1), "overlongword\n x");
  EXPECT_EQ(wrapped("", 10, 2), "");
}

TEST(Display, ReplacesWhatIsNotUtf8) {
  EXPECT_EQ(printable("a\xFF\xC3"), "a\uFFFD\uFFFD");
}

TEST(Source, LocatesEveryOffset) {
  const SourceText source("a", "ä\r\n\nb\n");
  EXPECT_EQ(source.line_count(), 3);
  EXPECT_EQ(source.locate(0), (LineColumn{1, 1}));
  EXPECT_EQ(source.locate(2), (LineColumn{1, 2}));
  EXPECT_EQ(source.locate(4), (LineColumn{2, 1}));
  EXPECT_EQ(source.locate(5), (LineColumn{3, 1}));
  EXPECT_EQ(source.locate(99), (LineColumn{3, 3}));
  EXPECT_EQ(source.text(source.line(1)), "ä");
  EXPECT_EQ(source.text(source.line(2)), "");
  EXPECT_EQ(source.text(source.line(3)), "b");
}

TEST(Source, FindsWhatIsNotUtf8) {
  // Well-formed sequences and their neighbours that are not: Unicode 15.0, table 3-7.
  EXPECT_EQ(find_invalid_utf8("aé€😀\uFFFF"), std::string_view::npos);
  for (const std::string_view bad :
       {"\x80", "\xC0\x80", "\xC1\xBF", "\xE0\x9F\xBF", "\xED\xA0\x80", "\xF0\x8F\xBF\xBF",
        "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xE2\x82", "\xC3"})
    EXPECT_EQ(find_invalid_utf8("ab" + std::string(bad)), 2U);
}

}  // namespace
}  // namespace pointwright::lesson

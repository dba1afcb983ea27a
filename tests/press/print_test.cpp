#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "film/filming_order.hpp"
#include "press/handout.hpp"
#include "press/script.hpp"
#include "tests/page/sample_course.hpp"

/// Printed documents, read back by the programs of poppler.
namespace pointwright::press {
namespace {

using testing::HasSubstr;
using testing::Not;

/// A PDF on disk, gone when the test ends.
class PdfFile {
 public:
  explicit PdfFile(const std::string& bytes) {
    char name[] = "/tmp/pointwright-print-XXXXXX";
    const int made = mkstemp(name);
    if (made >= 0) close(made);
    path_ = name;
    std::ofstream(path_, std::ios::binary) << bytes;
  }
  PdfFile(const PdfFile&) = delete;
  PdfFile& operator=(const PdfFile&) = delete;
  ~PdfFile() { std::filesystem::remove(path_); }

  /// What a program of poppler prints about it, with what it complains of.
  [[nodiscard]] std::string told_by(const std::string& program,
                                    const std::string& after = {}) const {
    std::string out;
    std::FILE* pipe = popen((program + " '" + path_ + "' " + after + " 2>&1").c_str(), "r");
    if (pipe == nullptr) return out;
    char buffer[4096];
    while (const std::size_t got = std::fread(buffer, 1, sizeof buffer, pipe)) {
      out.append(buffer, got);
    }
    pclose(pipe);
    return out;
  }
  [[nodiscard]] std::string text() const { return told_by("pdftotext", "-"); }

 private:
  std::string path_;
};

/// Whether texts stand in this order, each after the one before, wherever lines break.
void expect_in_order(std::string text, const std::vector<std::string>& parts) {
  std::replace(text.begin(), text.end(), '\n', ' ');
  std::size_t at = 0;
  for (const std::string& part : parts) {
    const std::size_t found = text.find(part, at);
    ASSERT_NE(found, std::string::npos) << "not found in its place: " << part << "\n" << text;
    at = found + part.size();
  }
}

std::string handout(const PrintOptions& options = {}) {
  const auto pdf = handout_pdf(sample_course(), options);
  return pdf.ok() ? *pdf : pdf.error().reason;
}

TEST(Handout, HasTheSizeTheNameAndTheParts) {
  const Storyboard course = sample_course();
  const PdfFile a4(handout());
  const std::string info = a4.told_by("pdfinfo");
  EXPECT_THAT(info, HasSubstr("A4"));
  EXPECT_THAT(info, HasSubstr(course.title));
  EXPECT_THAT(info, HasSubstr("Tagged:          yes"));
  EXPECT_THAT(info, Not(HasSubstr("rror")));
  EXPECT_THAT(PdfFile(handout({.paper = Paper::letter})).told_by("pdfinfo"), HasSubstr("letter"));
}

TEST(Handout, EveryTypefaceIsInTheFile) {
  const std::string fonts = PdfFile(handout()).told_by("pdffonts");
  EXPECT_THAT(fonts, HasSubstr("Inter"));
  std::istringstream lines(fonts);
  std::string line;
  std::getline(lines, line);
  const std::size_t embedded = line.find("emb");
  ASSERT_NE(embedded, std::string::npos) << fonts;
  std::getline(lines, line);
  int count = 0;
  while (std::getline(lines, line)) {
    EXPECT_EQ(line.substr(embedded, 3), "yes") << line;
    EXPECT_EQ(line.substr(embedded + 4, 3), "yes") << "only the letters used: " << line;
    ++count;
  }
  EXPECT_GT(count, 0);
}

TEST(Handout, IsReadInOrder) {
  const std::string text = PdfFile(handout()).text();
  const Storyboard course = sample_course();
  std::vector<std::string> titles{course.title};
  for (const Chapter& chapter : course.chapters) titles.push_back(chapter.title);
  titles.emplace_back("Answers");
  expect_in_order(text, titles);  // the contents
  std::vector<std::string> read{"Answers", "Chapter 1", course.chapters[0].title};
  expect_in_order(text, read);
  // A scene: its caption, its steps in order, and then what was proved.
  expect_in_order(text, {"Linen on the bar.", "A four and a two. Both doors are open.", "refused",
                         "Not before the checker is in.", "Proved"});
  EXPECT_THAT(text, HasSubstr("Exercise 1.1"));
}

/// The page on which pdftotext finds words for the first time after the contents; 0 if on none.
int page_with(const std::string& text, const std::string& words) {
  int page = 1;
  std::size_t begin = text.find('\f') + 1;
  for (std::size_t end = 0; begin < text.size(); begin = end + 1) {
    ++page;
    end = std::min(text.find('\f', begin), text.size());
    if (text.substr(begin, end - begin).find(words) != std::string::npos) return page;
  }
  return 0;
}

TEST(Handout, TellsOnWhichPagesItsChaptersAre) {
  const Storyboard course = sample_course();
  const auto pages = handout_pages(course, {});
  ASSERT_TRUE(pages.ok());
  const std::string text = PdfFile(handout()).text();
  ASSERT_EQ(pages->chapters.size(), course.chapters.size());
  int before = 1;
  for (std::size_t at = 0; at < course.chapters.size(); ++at) {
    EXPECT_EQ(pages->chapters[at].first, before + 1);
    EXPECT_EQ(pages->chapters[at].first, page_with(text, "Chapter " + std::to_string(at + 1)));
    before = pages->chapters[at].last;
  }
  ASSERT_TRUE(pages->answers);
  EXPECT_EQ(pages->answers->first, before + 1);
  EXPECT_EQ(pages->answers->last, std::count(text.begin(), text.end(), '\f'));
  EXPECT_EQ(pages_text({3, 3}), "page 3");
  EXPECT_EQ(pages_text({3, 5}), "pages 3 to 5");
}

TEST(Handout, NumbersOnTheBoardDoNotInterruptTheWords) {
  const std::string text = PdfFile(handout()).text();
  EXPECT_THAT(text, Not(HasSubstr("13\n14\n15\n16")));
  EXPECT_THAT(text, Not(HasSubstr("13 14 15 16")));
}

TEST(Handout, AnswersComeAtTheEndAlone) {
  const Storyboard course = sample_course();
  const std::string text = PdfFile(handout()).text();
  const std::size_t answers = text.rfind("Answers\n");
  ASSERT_NE(answers, std::string::npos);
  int found = 0;
  for (const Chapter& chapter : course.chapters) {
    for (const Part& part : chapter.parts) {
      if (!part.question || part.question->explanation.size() < 12) continue;
      const std::string head = part.question->explanation.substr(0, 12);
      EXPECT_EQ(text.substr(0, answers).find(head), std::string::npos) << head;
      EXPECT_NE(text.find(head, answers), std::string::npos) << head;
      ++found;
    }
  }
  EXPECT_GT(found, 0);
}

TEST(Handout, IsSmallAndAlwaysTheSame) {
  const std::string once = handout();
  EXPECT_EQ(once, handout());
  EXPECT_LT(once.size(), 200'000U);
}

TEST(Handout, TextCannotBecomeMarkup) {
  Storyboard course = sample_course();
  course.title = "<b>& <span";
  course.chapters[0].title = "</b> & <i>";
  course.chapters[0].summary = "a < b & c > d";
  const std::string text = PdfFile(*handout_pdf(course, {})).text();
  EXPECT_THAT(text, HasSubstr("<b>& <span"));
  EXPECT_THAT(text, HasSubstr("</b> & <i>"));
  EXPECT_THAT(text, testing::ContainsRegex("a ?< ?b ?& ?c ?> ?d"));
}

TEST(Handout, LongTextGoesOnOverThePages) {
  Storyboard course = sample_course();
  std::string long_text;
  for (int i = 0; i < 4000; ++i) long_text += "word" + std::to_string(i) + " ";
  Part part;
  part.prose = Prose{Prose::Kind::paragraph, 0, {{Inline::Kind::text, long_text, {}, {}}}, {}};
  course.chapters[0].parts.insert(course.chapters[0].parts.begin(), part);
  const std::string text = PdfFile(*handout_pdf(course, {})).text();
  for (const int i : {0, 1234, 3999}) {
    EXPECT_THAT(text, HasSubstr("word" + std::to_string(i)));
  }
}

TEST(BlankBoards, AreOnePageWithoutCheckers) {
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    const PdfFile pdf(*blank_boards_pdf({}, {.paper = paper}));
    EXPECT_THAT(pdf.told_by("pdfinfo"), testing::ContainsRegex("Pages: +1\n"));
  }
}

TEST(Script, SaysTheWordsInOrderWithTheirTimes) {
  const Storyboard course = sample_course();
  const auto shots = film::shots_of(course);
  const std::string text = PdfFile(*script_pdf(course, *shots, {})).text();
  expect_in_order(text, {"Shot 1", "A four and a two. Both doors are open.",
                         "[13/9 13/11 is tried, and refused]", "Not before the checker is in."});
  EXPECT_THAT(text, HasSubstr(std::to_string(shots->size()) + " shots"));
}

TEST(StageSheets, TellTheTotalsOfBothOrders) {
  const Storyboard course = sample_course();
  const auto shots = film::shots_of(course);
  const auto costs = film::transfer_costs(*shots);
  const auto best = film::filming_order(costs);
  const std::string script = PdfFile(*stage_sheets_pdf(course, *shots, {})).text();
  EXPECT_THAT(script, HasSubstr("in the order of the script"));
  EXPECT_THAT(script, HasSubstr("it would be " + std::to_string(best.touched)));
  StageOptions options;
  options.best_order = true;
  const std::string in_best = PdfFile(*stage_sheets_pdf(course, *shots, options)).text();
  expect_in_order(in_best, {"Shot " + std::to_string(best.order.front() + 1)});
  EXPECT_THAT(in_best, HasSubstr("From the empty board"));
}

TEST(StageSheets, TheTableHasALineForEachShot) {
  const Storyboard course = sample_course();
  const auto shots = film::shots_of(course);
  const std::string table = stage_list_csv(*shots, {});
  EXPECT_EQ(std::count(table.begin(), table.end(), '\r'), static_cast<long>(shots->size()) + 1);
}

}  // namespace
}  // namespace pointwright::press

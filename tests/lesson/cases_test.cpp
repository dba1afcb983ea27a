// Documents as tests. Each lesson in cases/ ends with a block ```expect that holds what the
// compiler tells about it; each folder there is a course with a file expect.txt. To write down what
// it tells now:   POINTWRIGHT_REWRITE=1 build/release/tests/test_lesson
// --gtest_filter='Documents.*' and read the difference before keeping it.

#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <set>

#include "lesson/report.hpp"
#include "tests/lesson/support.hpp"

namespace pointwright::lesson {
namespace {

namespace fs = std::filesystem;
using namespace testing;

bool rewriting() {
  return std::getenv("POINTWRIGHT_REWRITE") != nullptr;  // NOLINT(concurrency-mt-unsafe)
}

Compilation compile_case(const fs::path& path) {
  const std::string name = path.filename().string();
  return compile_lesson(memory_host({{name, document(path).lesson}}), name);
}

TEST(Documents, LessonsTellWhatTheyExpect) {
  for (const fs::path& path : lesson_cases()) {
    const Document document = testing::document(path);
    const std::string now = told(compile_case(path));
    if (rewriting()) {
      std::ofstream(path, std::ios::binary) << document.lesson << "\n```expect\n" << now << "```\n";
    } else {
      EXPECT_EQ(now, document.expected) << path;
    }
  }
}

TEST(Documents, CoursesTellWhatTheyExpect) {
  for (const fs::path& path : course_cases()) {
    const std::string now = told(compile_course(folder_host(path)));
    if (rewriting()) {
      std::ofstream(path / "expect.txt", std::ios::binary) << now;
    } else {
      EXPECT_EQ(now, contents(path / "expect.txt")) << path;
    }
  }
}

TEST(Documents, SomeExist) {
  EXPECT_GE(lesson_cases().size(), 8U);
  EXPECT_GE(course_cases().size(), 2U);
}

/// Faults that a text file under version control cannot well hold.
std::vector<Compilation> made_up() {
  std::vector<Compilation> all;
  all.push_back(compile_text("---\ntitle: x\n---\nA stray byte: \xFF.\n"));
  all.push_back(compile_text(std::string(largest_file + 1, 'x')));
  std::string many = "---\ntitle: x\n---\n```board here\nstart\n```\n```claims\n";
  for (int i = 0; i < 300; ++i) many += "pips light " + std::to_string(i) + "\n";
  all.push_back(compile_text(many + "```\n"));
  std::string too_long = "---\ntitle: x\n---\n```board here\nstart\n```\n```claims\n";
  for (std::size_t i = 0; i <= most_block_lines; ++i) too_long += "contact\n";
  all.push_back(compile_text(too_long + "```\n"));
  all.push_back(compile_text("---\ntitle: x\n---\n" + std::string(100, '>') + " deep\n"));
  return all;
}

TEST(Documents, MadeUpFaultsAreFound) {
  const std::vector<Compilation> all = made_up();
  EXPECT_EQ(ids(all[0]), std::vector<std::string>{"not-utf8"});
  EXPECT_EQ(all[0].diagnostics[0].begin, (LineColumn{4, 15}));
  EXPECT_EQ(ids(all[1]), std::vector<std::string>{"file-too-large"});
  EXPECT_EQ(all[2].diagnostics.size(), Report::most);
  EXPECT_EQ(ids(all[2]).front(), "more-problems");
  EXPECT_EQ(all[2].claims.refuted, 299);
  EXPECT_EQ(ids(all[3]), std::vector<std::string>{"too-long"});
  EXPECT_EQ(all[3].claims.proved, static_cast<int>(most_block_lines));
  EXPECT_EQ(ids(all[4]), std::vector<std::string>{"too-deep"});
}

TEST(Documents, ProduceEveryKindOfDiagnostic) {
  std::set<std::string_view> produced;
  const auto note = [&](const Compilation& compilation) {
    for (const Diagnostic& diagnostic : compilation.diagnostics)
      produced.insert(diagnostic.kind->id);
  };
  for (const fs::path& path : lesson_cases()) note(compile_case(path));
  for (const fs::path& path : course_cases()) note(compile_course(folder_host(path)));
  for (const Compilation& compilation : made_up()) note(compilation);
  for (const DiagnosticKind* kind : diagnostic_kinds())
    EXPECT_TRUE(produced.contains(kind->id)) << kind->id << " is never produced";
}

TEST(Kinds, HaveTheirOwnNamesAndMeanings) {
  std::set<std::string_view> seen;
  for (const DiagnosticKind* kind : diagnostic_kinds()) {
    EXPECT_TRUE(seen.insert(kind->id).second) << kind->id;
    EXPECT_FALSE(kind->meaning.empty()) << kind->id;
  }
}

}  // namespace
}  // namespace pointwright::lesson

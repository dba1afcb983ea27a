// Whatever is typed, the compiler answers: no crash, no hang, every place inside its text. The
// fuzzers go further; this is the part that runs each time.

#include <gtest/gtest.h>

#include <random>

#include "tests/lesson/support.hpp"

namespace pointwright::lesson {
namespace {

using namespace testing;

void expect_sound(const Compilation& result) {
  for (const Diagnostic& diagnostic : result.diagnostics) {
    const SourceText& source = result.source_of(diagnostic);
    ASSERT_LE(diagnostic.where.begin, diagnostic.where.end);
    ASSERT_LE(diagnostic.where.end, source.text().size());
    ASSERT_FALSE(render(diagnostic, source).empty());
    if (!diagnostic.fix) continue;
    ASSERT_LE(diagnostic.fix->where.begin, diagnostic.fix->where.end);
    ASSERT_LE(diagnostic.fix->where.end, source.text().size());
  }
}

std::vector<std::string> seeds() {
  std::vector<std::string> texts;
  for (const auto& path : lesson_cases()) texts.push_back(document(path).lesson);
  texts.push_back(contents(demo_folder() / "13-bearing-off.md"));
  return texts;
}

TEST(Hostile, MutatedLessonsAreAnswered) {
  std::mt19937 random(7);
  const std::vector<std::string> texts = seeds();
  constexpr std::string_view pieces[] = {
      "```", "\n", "---", "|",  "*",    "[",    "(2)",  "\"",  ":", ";",
      "/",   "<",  "&",   "\t", "\xC3", "\xFF", "with", "as ", "0", "99999999999999999999"};
  for (int i = 0; i < 1500; ++i) {
    std::string text = texts[random() % texts.size()];
    for (auto n = random() % 6; n > 0 && !text.empty(); --n) {
      const std::size_t at = random() % text.size();
      switch (random() % 4) {
        case 0:
          text.erase(at, random() % 40);
          break;
        case 1:
          text.insert(at, pieces[random() % std::size(pieces)]);
          break;
        case 2:
          text[at] = static_cast<char>(random() % 256);
          break;
        default:
          text.insert(at, text.substr(random() % text.size(), random() % 60));
      }
    }
    expect_sound(compile_text(text));
  }
}

TEST(Hostile, SmallTextsDoNotStandForHugeTables) {
  std::string wide = "---\ntitle: T\n---\n";
  std::string rule = "|";
  for (int i = 0; i < 2000; ++i) {
    wide += "|a";
    rule += "-|";
  }
  wide += "\n" + rule + "\n";
  for (int i = 0; i < 5000; ++i) wide += "|\n";
  EXPECT_EQ(ids(compile_text(wide)), std::vector<std::string>{"too-long"});

  std::string tall = "---\ntitle: T\n---\n";
  for (int i = 0; i <= most_lines; ++i) tall += "|\n";
  EXPECT_EQ(ids(compile_text(tall)), std::vector<std::string>{"too-long"});
}

TEST(Hostile, QuestionsAreCounted) {
  std::string many = "---\ntitle: T\n---\n";
  for (std::size_t i = 0; i < most_questions + 5; ++i) {
    many += "```question q" + std::to_string(i) + "\nask: How many?\nnumber: 1\n```\n";
  }
  const Compilation result = compile_text(many);
  EXPECT_EQ(ids(result), std::vector<std::string>{"too-long"});
  EXPECT_EQ(result.storyboard.chapters.front().parts.size(), most_questions);
}

TEST(Hostile, HeapsOfOneThingAreAnswered) {
  const std::string head = "---\ntitle: T\n---\n";
  for (const std::string_view piece : {"> ",
                                       "- ",
                                       "[",
                                       "![",
                                       "*a **b ",
                                       "`",
                                       "<",
                                       "&",
                                       "```\n",
                                       "|a|b\n",
                                       "\\",
                                       "1. ",
                                       "a\n\n",
                                       "| - ",
                                       "](",
                                       "_a ",
                                       "[a](b ",
                                       "<a ",
                                       "```board x\nstart\n```\n",
                                       "```claims\nplays 1\n```\n"}) {
    std::string text = head;
    while (text.size() < 60'000) text += piece;
    expect_sound(compile_text(text));
  }
  for (const std::string_view piece : {"[", "{a: ", "- ", "&a ", "? ", "\"", "  "}) {
    std::string yaml = "title: ";
    while (yaml.size() < 4'000) yaml += piece;
    expect_sound(compile_text("---\n" + yaml + "\n---\n"));
    expect_sound(compile_course(memory_host({{"course.yaml", yaml}})));
  }
}

}  // namespace
}  // namespace pointwright::lesson

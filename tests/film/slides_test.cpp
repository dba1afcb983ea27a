#include "film/slides.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/page/sample_course.hpp"

namespace pointwright::film {
namespace {

using testing::HasSubstr;
using testing::Not;

std::string deck_of(const Storyboard& course) {
  const auto shots = shots_of(course);
  const auto deck = slides_html(course, *shots);
  return deck.ok() ? *deck : deck.error().reason;
}

int count(const std::string& text, const std::string& part) {
  int found = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
    ++found;
  }
  return found;
}

TEST(Slides, OneThoughtASlide) {
  const Storyboard course = sample_course();
  const auto shots = shots_of(course);
  int wanted = 1 + static_cast<int>(course.chapters.size());
  for (const Shot& shot : *shots) wanted += 1 + static_cast<int>(shot.beats.size());
  for (const Chapter& chapter : course.chapters) {
    for (const Part& part : chapter.parts) wanted += part.question ? 2 : 0;
  }
  EXPECT_EQ(count(deck_of(course), "<section class=\"slide "), wanted);
}

TEST(Slides, AQuestionComesBeforeItsAnswer) {
  const std::string deck = deck_of(sample_course());
  const std::size_t question = deck.find("class=\"slide question");
  const std::size_t answer = deck.find("class=\"slide answer");
  ASSERT_NE(question, std::string::npos);
  ASSERT_NE(answer, std::string::npos);
  EXPECT_LT(question, answer);
  EXPECT_EQ(deck.substr(question, answer - question).find("class=\"right\""), std::string::npos);
}

TEST(Slides, FetchNothingAndCannotBeInjectedInto) {
  Storyboard course = sample_course();
  course.title = "<script>alert(1)</script>";
  const std::string deck = deck_of(course);
  EXPECT_THAT(deck, HasSubstr("&lt;script&gt;alert(1)"));
  EXPECT_THAT(deck, Not(HasSubstr("<script>alert")));
  EXPECT_THAT(deck, HasSubstr("default-src 'none'"));
  EXPECT_THAT(deck, Not(testing::ContainsRegex("(src|href)=\"https?:")));
  EXPECT_EQ(deck, deck_of(course)) << "always the same";
}

}  // namespace
}  // namespace pointwright::film

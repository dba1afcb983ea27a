#include <gtest/gtest.h>

#include "storyboard/json.hpp"
#include "tests/lesson/support.hpp"

namespace pointwright::lesson {
namespace {

TEST(DemoCourse, IsProved) {
  const Compilation course = compile_course(testing::folder_host(testing::demo_folder()));
  for (const Diagnostic& diagnostic : course.diagnostics)
    ADD_FAILURE() << render(diagnostic, course.source_of(diagnostic));
  EXPECT_EQ(course.outcome(), Outcome::proved);
  EXPECT_GE(course.claims.proved, 120);
  EXPECT_EQ(course.claims.proved, course.claims.written);
  EXPECT_EQ(course.answers.proved, course.answers.written);
}

TEST(DemoCourse, KeepsItselfThroughJson) {
  const Compilation course = compile_course(testing::folder_host(testing::demo_folder()));
  const std::string json = to_json(course.storyboard);
  const auto back = storyboard_from_json(json);
  ASSERT_TRUE(back.ok()) << back.error().where << ": " << back.error().reason;
  EXPECT_EQ(to_json(*back), json);
}

}  // namespace
}  // namespace pointwright::lesson

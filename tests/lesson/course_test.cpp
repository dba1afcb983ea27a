#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>

#include "lesson/lesson.hpp"

namespace pointwright::lesson {
namespace {

Host folder(const std::filesystem::path& path) {
  return {[path](const std::string& name) -> Result<std::string, ReadFailure> {
    std::ifstream file(path / name, std::ios::binary);
    if (!file) return ReadFailure{"there is no such file"};
    return std::string(std::istreambuf_iterator<char>(file), {});
  }};
}

TEST(DemoCourse, IsUnderstood) {
  const auto path = std::filesystem::path(POINTWRIGHT_SOURCE_DIR) / "lessons/first-evenings";
  const Compilation course = compile_course(folder(path));
  for (const Diagnostic& diagnostic : course.diagnostics) {
    if (diagnostic.kind->cause != Cause::untrue)
      ADD_FAILURE() << render(diagnostic, course.source_of(diagnostic));
  }
  EXPECT_NE(course.outcome(), Outcome::bad_input);
  EXPECT_EQ(course.claims.unchecked(), 0);
  EXPECT_EQ(course.answers.unchecked(), 0);
  EXPECT_GE(course.claims.proved, 120);
}

}  // namespace
}  // namespace pointwright::lesson

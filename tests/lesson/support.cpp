#include "tests/lesson/support.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>

namespace pointwright::lesson::testing {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view expect_fence = "\n```expect\n";

std::vector<fs::path> sorted(const fs::path& folder, bool folders) {
  std::vector<fs::path> paths;
  for (const auto& entry : fs::directory_iterator(folder)) {
    if (entry.is_directory() == folders && (folders || entry.path().extension() == ".md"))
      paths.push_back(entry.path());
  }
  std::sort(paths.begin(), paths.end());
  return paths;
}

}  // namespace

fs::path cases_folder() {
  return fs::path(POINTWRIGHT_SOURCE_DIR) / "tests/lesson/cases";
}

fs::path demo_folder() {
  return fs::path(POINTWRIGHT_SOURCE_DIR) / "lessons/first-evenings";
}

std::string contents(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  EXPECT_TRUE(file) << path;
  return {std::istreambuf_iterator<char>(file), {}};
}

Host folder_host(const fs::path& folder) {
  return {[folder](const std::string& name) -> Result<std::string, ReadFailure> {
    std::ifstream file(folder / name, std::ios::binary);
    if (!file) return ReadFailure{"there is no such file"};
    return std::string(std::istreambuf_iterator<char>(file), {});
  }};
}

Host memory_host(std::map<std::string, std::string> files) {
  return {[files = std::move(files)](const std::string& name) -> Result<std::string, ReadFailure> {
    const auto found = files.find(name);
    if (found == files.end()) return ReadFailure{"there is no such file"};
    return found->second;
  }};
}

Compilation compile_text(const std::string& lesson) {
  return compile_lesson(memory_host({{"lesson.md", lesson}}), "lesson.md");
}

Compilation compile_claims(std::string_view board, std::string_view claims) {
  return compile_text(fmt::format(
      "---\ntitle: Test\n---\n```board here\n{}\n```\n```claims\n{}\n```\n", board, claims));
}

std::string told(const Compilation& compilation) {
  std::string text;
  for (const Diagnostic& diagnostic : compilation.diagnostics)
    text += render(diagnostic, compilation.source_of(diagnostic), {88, false});
  const auto tally = [](std::string_view what, const Tally& count) {
    return fmt::format("{}: {} written, {} proved, {} refuted\n", what, count.written, count.proved,
                       count.refuted);
  };
  return text + tally("claims", compilation.claims) + tally("answers", compilation.answers);
}

std::vector<std::string> ids(const Compilation& compilation) {
  std::vector<std::string> result;
  for (const Diagnostic& diagnostic : compilation.diagnostics)
    result.emplace_back(diagnostic.kind->id);
  return result;
}

std::vector<fs::path> lesson_cases() {
  return sorted(cases_folder(), false);
}

std::vector<fs::path> course_cases() {
  return sorted(cases_folder(), true);
}

Document document(const fs::path& path) {
  const std::string whole = contents(path);
  const std::size_t fence = whole.rfind(expect_fence);
  if (fence == std::string::npos) return {whole, ""};
  std::string expected = whole.substr(fence + expect_fence.size());
  const std::size_t close = expected.rfind("```");
  return {whole.substr(0, fence), expected.substr(0, close)};
}

}  // namespace pointwright::lesson::testing

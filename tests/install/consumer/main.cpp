// A program of somebody else's that uses the installed libraries.
#include <cstdio>
#include <string>

#include "lesson/lesson.hpp"
#include "rules/play.hpp"
#include "rules/position.hpp"
#include "studio/page.hpp"

int main() {
  using namespace pointwright;
  const auto plays = legal_plays(starting_board(), Side::light, Roll{3, 1});
  const auto compiled =
      lesson::compile_lesson({.read =
                                  [](const std::string&) {
                                    return Result<std::string, lesson::ReadFailure>(
                                        "---\ntitle: T\n---\n\n```board "
                                        "b\nstart\n```\n\n```claims\npips light 167\n```\n");
                                  }},
                             "t.md");
  const auto page = page_html(compiled.storyboard);
  std::printf("%zu plays, %d claims proved, page %s\n", plays.size(), compiled.claims.proved,
              page.ok() ? "made" : "not made");
}

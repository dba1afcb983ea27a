#include <gtest/gtest.h>

#include "lesson/claim.hpp"
#include "lesson/lesson.hpp"

namespace pointwright::lesson {
namespace {

Compilation compile(const ClaimKind& kind, std::string_view claim) {
  const std::string text = "---\ntitle: One claim\n---\n\n```board here\n" +
                           std::string(kind.example_board) + "\n```\n\n```claims\n" +
                           std::string(claim) + "\n```\n";
  const Host host{[text](const std::string&) -> Result<std::string, ReadFailure> { return text; }};
  return compile_lesson(host, "one.md");
}

/// Every kind of claim shows itself at work: its example is proved, its counterexample refuted with
/// a correction that is proved in turn.
TEST(ClaimKinds, ProveTheirExamplesAndMendTheirCounterexamples) {
  for (const ClaimKind* kind : claim_kinds()) {
    const Compilation good = compile(*kind, kind->example);
    EXPECT_EQ(good.outcome(), Outcome::proved) << kind->name;
    for (const Diagnostic& diagnostic : good.diagnostics)
      ADD_FAILURE() << render(diagnostic, good.source_of(diagnostic));

    const Compilation bad = compile(*kind, kind->counterexample);
    ASSERT_EQ(bad.diagnostics.size(), 1U) << kind->name;
    const Diagnostic& diagnostic = bad.diagnostics.front();
    EXPECT_EQ(diagnostic.kind->cause, Cause::untrue) << kind->name;
    if (!diagnostic.fix) continue;
    std::string mended(bad.source_of(diagnostic).text());
    mended.replace(diagnostic.fix->where.begin,
                   diagnostic.fix->where.end - diagnostic.fix->where.begin,
                   diagnostic.fix->replacement);
    const Host host{
        [mended](const std::string&) -> Result<std::string, ReadFailure> { return mended; }};
    EXPECT_EQ(compile_lesson(host, "one.md").outcome(), Outcome::proved)
        << kind->name << ": " << mended;
  }
}

}  // namespace
}  // namespace pointwright::lesson

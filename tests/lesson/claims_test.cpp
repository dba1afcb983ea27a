#include <gtest/gtest.h>

#include <set>

#include "lesson/claim.hpp"
#include "tests/lesson/support.hpp"

namespace pointwright::lesson {
namespace {

using namespace testing;

std::string show(const Compilation& compilation) {
  return told(compilation);
}

/// The lesson with a fix pasted in.
std::string pasted(const Compilation& compilation, const Fix& fix) {
  std::string text(compilation.sources.front().text());
  return text.replace(fix.where.begin, fix.where.end - fix.where.begin, fix.replacement);
}

TEST(ClaimKinds, AreDescribedAndHaveTheirOwnNames) {
  std::set<std::string_view> names;
  std::set<std::string_view> forms;
  for (const ClaimKind* kind : claim_kinds()) {
    EXPECT_TRUE(names.insert(kind->name).second) << kind->name;
    EXPECT_FALSE(kind->forms.empty()) << kind->name;
    for (const std::string_view form : kind->forms) EXPECT_TRUE(forms.insert(form).second) << form;
    EXPECT_FALSE(kind->says.empty()) << kind->name;
    EXPECT_NE(kind->check, nullptr) << kind->name;
  }
}

TEST(ClaimKinds, ProveTheirExamples) {
  for (const ClaimKind* kind : claim_kinds()) {
    const Compilation result = compile_claims(kind->example_board, kind->example);
    EXPECT_EQ(result.outcome(), Outcome::proved) << kind->name << "\n" << show(result);
    ASSERT_EQ(result.storyboard.chapters.front().parts.front().scene->claims.size(), 1U);
    const ProvedClaim& claim = result.storyboard.chapters.front().parts.front().scene->claims[0];
    EXPECT_EQ(claim.kind, kind->name);
    EXPECT_EQ(claim.text, kind->example);
    EXPECT_FALSE(claim.statement.empty()) << kind->name;
    EXPECT_FALSE(claim.proof.empty()) << kind->name;
    EXPECT_EQ(claim.source.line, 8);
  }
}

TEST(ClaimKinds, RefuteTheirCounterexamples) {
  for (const ClaimKind* kind : claim_kinds()) {
    const Compilation result = compile_claims(kind->example_board, kind->counterexample);
    ASSERT_EQ(result.outcome(), Outcome::false_claim) << kind->name << "\n" << show(result);
    const Diagnostic& diagnostic = result.diagnostics.front();
    EXPECT_EQ(diagnostic.detail, kind->name);
    EXPECT_FALSE(diagnostic.truth.empty()) << kind->name;
    EXPECT_FALSE(diagnostic.proof.empty()) << kind->name;
    EXPECT_TRUE(diagnostic.fix) << kind->name;
  }
}

TEST(Suggestions, AreTrueWhenPasted) {
  int tried = 0;
  const auto paste_each = [&](const Compilation& wrong) {
    for (const Diagnostic& diagnostic : wrong.diagnostics) {
      if (diagnostic.kind->id != "false-claim" || !diagnostic.fix) continue;
      const Compilation right = compile_text(pasted(wrong, *diagnostic.fix));
      EXPECT_EQ(right.claims.proved, wrong.claims.proved + 1)
          << render(diagnostic, wrong.sources.front()) << show(right);
      ++tried;
    }
  };
  for (const ClaimKind* kind : claim_kinds())
    paste_each(compile_claims(kind->example_board, kind->counterexample));
  paste_each(compile_text(document(cases_folder() / "claims-false.md").lesson));
  EXPECT_GE(tried, 35);
}

TEST(Claims, AreAllCheckedAfterOneFails) {
  const Compilation result =
      compile_claims("start", "pips light 1\npips light 167\npips dark 2\npips dark 167\nnonsense");
  EXPECT_EQ(result.claims.written, 5);
  EXPECT_EQ(result.claims.proved, 2);
  EXPECT_EQ(result.claims.refuted, 2);
  EXPECT_EQ(result.claims.unchecked(), 1);
  EXPECT_EQ(result.outcome(), Outcome::bad_input);
  // What cannot be read comes first: it may hide what is false.
  EXPECT_EQ(ids(result), (std::vector<std::string>{"unknown-claim", "false-claim", "false-claim"}));
}

TEST(Claims, OnABoardThatCannotStandAreNotReported) {
  const Compilation result = compile_claims("light 24x20", "pips light 1\nlegal 6/5");
  for (const std::string& id : ids(result)) EXPECT_EQ(id, "bad-position");
  EXPECT_EQ(result.claims.unchecked(), 2);
}

TEST(Claims, SpeakOfTheSidesByTheirNames) {
  const Compilation result = compile_text(
      "---\ntitle: T\nsides: {light: Ivory, dark: Walnut}\n---\n```board b\nstart\n```\n"
      "```claims\npips dark 167\n```\n");
  const ProvedClaim& claim = result.storyboard.chapters[0].parts[0].scene->claims.at(0);
  EXPECT_EQ(claim.statement, "Walnut has 167 pips to go.");
}

TEST(Claims, TakeARollOfTheirOwn) {
  const Compilation result =
      compile_claims("start; light to play 3-1",
                     "legal 8/5 6/5\nwith 1-3: legal 8/5 6/5\nwith dark 6-1: legal 13/7 8/7\n"
                     "with 6-1: illegal 8/5 6/5 because dice-numbers");
  EXPECT_EQ(result.outcome(), Outcome::proved) << show(result);
}

TEST(Reference, NamesEveryForm) {
  const std::string text = claim_reference();
  for (const ClaimKind* kind : claim_kinds()) {
    for (const std::string_view form : kind->forms)
      EXPECT_NE(text.find("`" + std::string(form) + "`"), std::string::npos) << form;
    EXPECT_NE(text.find("`" + std::string(kind->example) + "` is true."), std::string::npos);
    EXPECT_NE(text.find("`" + std::string(kind->counterexample) + "` is false."),
              std::string::npos);
  }
}

}  // namespace
}  // namespace pointwright::lesson

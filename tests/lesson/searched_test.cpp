#include "lesson/searched.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <map>

#include "judge/parallel_search.hpp"
#include "judge/shipped.hpp"
#include "tests/lesson/support.hpp"

namespace pointwright::lesson {
namespace {

using namespace testing;

/// A memo that counts.
class CountingMemo : public Memo {
 public:
  std::optional<std::string> find(const std::string& key) override {
    const auto entry = entries.find(key);
    if (entry == entries.end()) return std::nullopt;
    ++hits;
    return entry->second;
  }
  void keep(const std::string& key, const std::string& value) override {
    entries[key] = value;
    ++kept;
  }
  std::map<std::string, std::string> entries;
  int hits = 0;
  int kept = 0;
};

std::string lesson_with(std::string_view board, std::string_view claims) {
  return "---\ntitle: Test\n---\n```board here\n" + std::string(board) + "\n```\n```claims\n" +
         std::string(claims) + "\n```\n";
}

Compilation with_memo(std::string_view board, std::string_view claims, Memo& memo) {
  Host host = memory_host({{"lesson.md", lesson_with(board, claims)}});
  host.help.memo = &memo;
  return compile_lesson(host, "lesson.md");
}

TEST(Settling, IsYesOnlyWhereEveryValueWithinTheErrorFits) {
  EXPECT_EQ(settle(0.5, 0.1, 0.4, 0.6), Settled::yes);
  EXPECT_EQ(settle(0.5, 0.11, 0.4, 0.6), Settled::open);
  EXPECT_EQ(settle(0.8, 0.1, 0.4, 0.6), Settled::no);
  EXPECT_EQ(settle(0.69, 0.1, 0.4, 0.6), Settled::open);
  EXPECT_EQ(settle(0.5, 0, 0.5, 0.5), Settled::yes);
  EXPECT_NEAR((Searched{.value = 0.5, .before = 0.4}).error(0.05), 0.1, 1e-12);
  EXPECT_EQ((Searched{.value = 0.5, .before = 0.49}).error(0.05), 0.05);
  EXPECT_EQ((Searched{.value = 0.5, .before = 0.4, .exact = true}).error(0.05), 0);
}

TEST(SearchedClaims, AreProvedRefutedOrNotSettledByTheSearch) {
  const Compilation found =
      compile_claims("start; light to play 3-1",
                     "best play 8/5 6/5\nbest play 8/5 6/5 by 0.1\nbest play 8/5 6/5 by 0.17\n"
                     "best play 8/5 6/5 by 0.5\nbest play 24/20\nbest play 8/4 6/4\n"
                     "with 4-3: best play 13/10 13/9\nwith 6-1: costs 0.1 +- 0.2 with 13/7 6/5");
  EXPECT_EQ(found.claims.proved, 3) << told(found);
  EXPECT_EQ(found.claims.refuted, 3) << told(found);
  EXPECT_EQ(ids(found), (std::vector<std::string>{"not-settled", "not-settled", "false-claim",
                                                  "false-claim", "false-claim"}))
      << told(found);
  const ProvedClaim& claim = found.storyboard.chapters[0].parts[0].scene->claims.at(0);
  EXPECT_EQ(claim.known.kind, HowKnown::Kind::searched);
  EXPECT_EQ(claim.known.depth, 2);
}

TEST(SearchedClaims, AreExactWhereATableAnswers) {
  const Compilation found =
      compile_claims("light 6x1 5x1; dark 6x2; light to roll", "win chance light 66.7% +- 34");
  ASSERT_EQ(found.claims.proved, 1) << told(found);
  EXPECT_EQ(found.storyboard.chapters[0].parts[0].scene->claims.at(0).known.kind,
            HowKnown::Kind::exact);
}

TEST(SearchedClaims, SayTheNumbersOfTheSearch) {
  judge::Search search(judge::shipped_evaluator());
  const auto value = search.worth(starting_board(), Side::light, 2);
  const Compilation found =
      compile_claims("start; light to roll", "win chance light 90% +- 1\nwin chance dark 10% +- 1");
  ASSERT_EQ(found.diagnostics.size(), 2U) << told(found);
  char percent[16];
  std::snprintf(percent, sizeof percent, "%.1f%%", 100 * static_cast<double>(value.chances.win));
  EXPECT_NE(found.diagnostics[0].truth.find(percent), std::string::npos) << told(found);
}

TEST(SearchedClaims, MayBeRolledOut) {
  CountingMemo memo;
  const char* claims =
      "best play 8/5 6/5 by 0.1 rolled out\ncosts 0.01 +- 0.03 with 24/20 rolled out";
  const Compilation found = with_memo("start; light to play 3-1", claims, memo);
  EXPECT_EQ(ids(found), (std::vector<std::string>{"false-claim"})) << told(found);
  const auto& proved = found.storyboard.chapters[0].parts[0].scene->claims;
  ASSERT_EQ(proved.size(), 1U) << told(found);
  EXPECT_EQ(proved[0].known.kind, HowKnown::Kind::sampled);
  EXPECT_GT(proved[0].known.standard_error, 0);
  EXPECT_NE(proved[0].proof.find("times with the same dice"), std::string::npos);
  const int kept = memo.kept;
  EXPECT_EQ(told(with_memo("start; light to play 3-1", claims, memo)), told(found));
  EXPECT_EQ(memo.kept, kept);
  // Where a table answers there is nothing to roll out.
  EXPECT_EQ(
      compile_claims("light 6x1 2x1; dark 1x2; light to play 6-1", "best play 6/off 2/1 rolled out")
          .claims.proved,
      1);
}

TEST(SearchedClaims, AreRememberedByTheirContent) {
  CountingMemo memo;
  const char* claims =
      "best play 8/5 6/5\ncosts 0.17 +- 0.1 with 24/20\nwith 6-1: best play 13/7 8/7";
  const std::string first = told(with_memo("start; light to play 3-1", claims, memo));
  const int kept = memo.kept;
  EXPECT_GT(kept, 0);
  memo.hits = 0;
  EXPECT_EQ(told(with_memo("start; light to play 3-1", claims, memo)), first);
  EXPECT_EQ(memo.kept, kept);
  EXPECT_GE(memo.hits, 3);
  // At another score it is another question.
  with_memo("start; light to play 3-1; match to 5 score 4-1", "best play 8/5 6/5", memo);
  EXPECT_GT(memo.kept, kept);
  // What cannot be read is searched anew.
  for (auto& entry : memo.entries) entry.second = "damaged";
  EXPECT_EQ(told(with_memo("start; light to play 3-1", claims, memo)), first);
}

// A host that hands pieces of work out in any order changes nothing.
TEST(SearchedClaims, DoNotDependOnTheHelpThatAHostLends) {
  const char* board = "light 9x1 6x2; dark 20x1 4x2; light to play 6-5";
  const char* claims =
      "best play 9/3 6/1\nbest play 9/3 6/1 rolled out\ncosts 0 +- 0.2 with 9/4 6/off";
  BuildHost workers;
  workers.in_parallel = [](std::size_t count, const auto& work) {
    for (std::size_t i = count; i > 0; i -= std::min<std::size_t>(i, 5))
      work(i - std::min<std::size_t>(i, 5), i);
  };
  judge::ParallelSearch search(judge::shipped_evaluator(), workers, 2);
  const auto kept_by = [&](const Help& help) {
    CountingMemo memo;
    Host host = memory_host({{"lesson.md", lesson_with(board, claims)}});
    host.help = help;
    host.help.memo = &memo;
    const Compilation found = compile_lesson(host, "lesson.md");
    return std::pair{told(found), memo.entries};
  };
  const auto alone = kept_by({});
  EXPECT_GE(alone.second.size(), 2U);
  EXPECT_EQ(kept_by({.search = &search, .workers = &workers}), alone);
}

}  // namespace
}  // namespace pointwright::lesson

#include "judge/search.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "chance/two_sided.hpp"
#include "judge/shipped.hpp"
#include "rules/notation.hpp"
#include "rules/position.hpp"
#include "tests/rules/random_positions.hpp"

namespace pointwright::judge {
namespace {

Board board(std::string_view line) {
  return read_position(line)->board;
}

/// Expectation over the rolls as the text books write it, without sieve, cache or scratch memory.
double plain(const Board& board, Side on_roll, int depth) {
  const Evaluation now = shipped_evaluator().evaluate(board, on_roll);
  if (depth == 0 || is_final(now.origin)) return static_cast<double>(now.chances.equity());
  double sum = 0;
  for (const Roll roll : all_rolls()) {
    auto plays = legal_plays(board, on_roll, roll);
    if (plays.empty()) plays.push_back({Play{}, board});
    // The reply is chosen at once and then looked at one roll less deeply.
    std::size_t best = 0;
    double best_equity = -1e9;
    for (std::size_t i = 0; i < plays.size(); ++i) {
      const double equity = -plain(plays[i].after, opponent(on_roll), 0);
      if (equity > best_equity) {
        best_equity = equity;
        best = i;
      }
    }
    sum += roll.ways() * -plain(plays[best].after, opponent(on_roll), depth - 1);
  }
  return sum / 36;
}

TEST(Search, OneStepIsThePlainExpectation) {
  Search search(shipped_evaluator());
  std::mt19937_64 random(5);
  for (int i = 0; i < 25; ++i) {
    const Board any = pointwright::testing::random_board(random);
    const SearchedValue value = search.worth(any, Side::dark, 1);
    ASSERT_NEAR(static_cast<double>(value.equity), plain(any, Side::dark, 1), 2e-5) << to_text(any);
    ASSERT_NEAR(value.equity, value.chances.equity(), 1e-6);
  }
}

TEST(Search, TwoStepsAreThePlainExpectation) {
  Search search(shipped_evaluator());
  for (const char* line : {"light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5",
                           "light barx1 13x4 8x3 6x5 5x2; dark 24x1 21x1 13x5 8x3 6x5",
                           "light 24x1 6x3 5x3 4x3 3x3 2x2; dark 8x1 5x1 4x2 3x2 2x2"}) {
    const SearchedValue value = search.worth(board(line), Side::light, 2);
    EXPECT_EQ(value.depth, 2);
    EXPECT_NEAR(static_cast<double>(value.equity), plain(board(line), Side::light, 2), 2e-5)
        << line;
  }
}

TEST(Search, RanksEveryLegalPlayBestFirst) {
  Search search(shipped_evaluator());
  std::mt19937_64 random(6);
  for (int i = 0; i < 40; ++i) {
    const Board any = pointwright::testing::random_board(random);
    const Roll roll(1 + static_cast<int>(random() % 6), 1 + static_cast<int>(random() % 6));
    const auto plays = legal_plays(any, Side::light, roll);
    for (int depth = 0; depth <= 1; ++depth) {
      const auto ranked = search.rank(any, Side::light, roll, depth);
      ASSERT_EQ(ranked.size(), std::max<std::size_t>(1, plays.size()));
      for (std::size_t k = 1; k < ranked.size(); ++k) {
        const bool deeper = ranked[k - 1].depth > ranked[k].depth;
        ASSERT_TRUE(deeper || is_final(ranked[k].origin) || is_final(ranked[k - 1].origin) ||
                    ranked[k - 1].equity >= ranked[k].equity);
      }
      for (const LegalPlay& play : plays) {
        ASSERT_EQ(std::count_if(ranked.begin(), ranked.end(),
                                [&](const RankedPlay& r) { return r.play.after == play.after; }),
                  1);
      }
      ASSERT_EQ(search.best_after(any, Side::light, roll, depth), ranked.front().play.after);
      if (plays.empty()) ASSERT_EQ(ranked.front().play.after, any);
    }
  }
}

TEST(Search, DoesNotDependOnWhatItRemembers) {
  SearchOptions tiny;
  tiny.cache_bits = 0;
  Search fresh(shipped_evaluator(), tiny);
  Search full(shipped_evaluator());
  std::mt19937_64 random(7);
  for (int i = 0; i < 30; ++i) {
    const Board any = pointwright::testing::random_board(random);
    const float first = full.worth(any, Side::light, 1).equity;
    ASSERT_EQ(first, full.worth(any, Side::light, 1).equity);
    ASSERT_EQ(first, fresh.worth(any, Side::light, 1).equity);
    ASSERT_EQ(first, full.worth(swapped(any), Side::dark, 1).equity);
  }
}

TEST(Search, AnExactAnswerIsNotSearched) {
  Search search(shipped_evaluator());
  const Board race = board("light 5x1 2x1; dark 4x1 1x1");
  const SearchedValue value = search.worth(race, Side::light, 2);
  EXPECT_EQ(value.origin, Origin::exact_table);
  EXPECT_EQ(value.depth, 0);
  const auto& family = small_races().family();
  EXPECT_EQ(value.chances.win, static_cast<float>(small_races()
                                                      .values(family.rank(race.of(Side::light)),
                                                              family.rank(race.of(Side::dark)))
                                                      .win));
}

// One step of expectation over exact values gives the exact value again.
TEST(Search, OneStepOverExactValuesIsExact) {
  const Evaluator& evaluator = shipped_evaluator();
  std::mt19937_64 random(8);
  for (int i = 0; i < 200; ++i) {
    Board race;
    for (const Side side : {Side::light, Side::dark}) {
      race.of(side)[off_place] = 9;
      for (int k = 0; k < 6; ++k) ++race.of(side)[1 + random() % 6];
    }
    double sum = 0;
    for (const Roll roll : all_rolls()) {
      double best = -2;
      for (const LegalPlay& play : legal_plays(race, Side::light, roll)) {
        const Evaluation after = evaluator.evaluate(play.after, Side::dark);
        best = std::max(best, -static_cast<double>(after.chances.equity()));
      }
      sum += roll.ways() * best;
    }
    ASSERT_NEAR(sum / 36, evaluator.evaluate(race, Side::light).chances.equity(), 1e-6);
  }
}

TEST(Valuation, ReversedSeesTheOtherSide) {
  const auto& table = chance::standard_match_table();
  const Chances chances{0.6F, 0.2F, 0.03F, 0.1F, 0.01F};
  for (int mine = 1; mine <= 7; ++mine) {
    for (int theirs = 1; theirs <= 7; ++theirs) {
      const chance::Needs needs{mine, theirs, false};
      for (const std::uint64_t cube : {1U, 2U, 4U}) {
        const Valuation here = Valuation::match(table, needs, cube);
        const Valuation there = Valuation::match(table, needs.reversed(), cube);
        EXPECT_NEAR(here.reversed().equity(chances.reversed()), -here.equity(chances), 1e-5);
        EXPECT_NEAR(there.equity(chances.reversed()), -here.equity(chances), 1e-5);
      }
    }
  }
  EXPECT_EQ(Valuation::money().equity(chances), chances.equity());
  EXPECT_EQ(Valuation::money().reversed(), Valuation::money());
}

// At one point each needed nothing counts but the win; a gammon is worth most to the side that
// needs two points when the other is at match point.
TEST(Valuation, KnowsWhatGammonsAreWorthAtTheEndOfAMatch) {
  const auto& table = chance::standard_match_table();
  const Valuation last = Valuation::match(table, {1, 1, false}, 1);
  EXPECT_EQ(last, Valuation::singles());
  const Valuation crawford = Valuation::match(table, {2, 1, false}, 1);
  EXPECT_GT(crawford.win_gammon, 0.5F);
  EXPECT_EQ(crawford.lose_gammon, 0.0F);
}

// Each stake finds its own play the best, and they are not always the same.
TEST(Search, TheScoreChangesThePlay) {
  Search search(shipped_evaluator());
  const auto& table = chance::standard_match_table();
  const Valuation gammon_wins = Valuation::match(table, {2, 1, false}, 1);
  const Valuation win_only = Valuation::match(table, {1, 2, true}, 1);
  int different = 0;
  std::mt19937_64 random(9);
  for (int i = 0; i < 200; ++i) {
    const Board any = pointwright::testing::random_board(random);
    const Board bold = search.best_after(any, Side::light, Roll(4, 2), 0, gammon_wins);
    const Board sober = search.best_after(any, Side::light, Roll(4, 2), 0, win_only);
    if (bold != sober) ++different;
    const auto value = [&](const Board& after, const Valuation& v) {
      const Chances c = shipped_evaluator().evaluate(after, Side::dark).chances;
      return v.equity(c.reversed());
    };
    ASSERT_GE(value(bold, gammon_wins), value(sober, gammon_wins) - 1e-6F);
    ASSERT_GE(value(sober, win_only), value(bold, win_only) - 1e-6F);
  }
  EXPECT_GT(different, 0);
}

}  // namespace
}  // namespace pointwright::judge

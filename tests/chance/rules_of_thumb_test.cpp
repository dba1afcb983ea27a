#include "chance/rules_of_thumb.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "rules/position.hpp"

namespace pointwright {
namespace {

const RuleOfThumb& rule(std::string_view id) {
  const auto rules = rules_of_thumb();
  return *std::find_if(rules.begin(), rules.end(), [&](const auto& r) { return r.id == id; });
}

CubeAdvice advise(std::string_view id, std::string_view line, bool owned = false) {
  const Board board = read_position(line).value().board;
  return rule(id).advise({board.of(Side::light), board.of(Side::dark)}, owned);
}

TEST(RulesOfThumb, EachIsWrittenDownInFull) {
  for (const RuleOfThumb& rule : rules_of_thumb()) {
    EXPECT_FALSE(rule.id.empty());
    EXPECT_GT(rule.statement.size(), 20U) << rule.id;
    EXPECT_GT(rule.source.size(), 10U) << rule.id;
    EXPECT_FALSE(rule.name.empty());
  }
}

TEST(RulesOfThumb, PerCentRuleByHand) {
  // Light has 50 pips: 8 per cent is 4, 9 is 4.5, 12 is 6. Dark has 53, 54, 55, 56 and 57.
  const std::string light = "light 6x5 5x4; dark ";
  EXPECT_EQ(advise("8-9-12", light + "6x5 5x4 3x1"), CubeAdvice::hold);
  EXPECT_EQ(advise("8-9-12", light + "6x5 5x4 4x1"), CubeAdvice::offer_take);
  EXPECT_EQ(advise("8-9-12", light + "6x5 5x4 4x1", true), CubeAdvice::hold);
  EXPECT_EQ(advise("8-9-12", light + "6x5 5x5", true), CubeAdvice::offer_take);
  EXPECT_EQ(advise("8-9-12", light + "6x6 5x4"), CubeAdvice::offer_take);
  EXPECT_EQ(advise("8-9-12", light + "6x6 5x4 1x1"), CubeAdvice::offer_drop);
}

TEST(RulesOfThumb, ThorpByHand) {
  // Light: 20 pips, 4 checkers, points 6, 5, 4 held, none on the 1: 20 + 8 - 3 = 25, no tenth.
  // Dark: 22 pips, 4 checkers, points 6, 5 held: 22 + 8 - 2 = 28. Light is 3 below: drop.
  EXPECT_EQ(advise("thorp", "light 6x1 5x2 4x1; dark 6x2 5x2"), CubeAdvice::offer_drop);
  // Against 20 pips on 6, 5 and 4 again: even counts, double and take; redouble too.
  EXPECT_EQ(advise("thorp", "light 6x1 5x2 4x1; dark 6x1 5x2 4x1"), CubeAdvice::offer_take);
}

TEST(RulesOfThumb, KleinmanByHand) {
  // D = 6, S = 94: (10)² / 90 = 1.11: double, take. D = 7, S = 95: 121 / 91 = 1.33: drop.
  EXPECT_EQ(advise("kleinman", "light 6x4 5x4; dark 6x5 5x4"), CubeAdvice::offer_take);
  EXPECT_EQ(advise("kleinman", "light 6x4 5x4; dark 6x5 5x4 1x1"), CubeAdvice::offer_drop);
  // Even at 44: 16 / 84 = 0.19: hold.
  EXPECT_EQ(advise("kleinman", "light 6x4 5x4; dark 6x4 5x4"), CubeAdvice::hold);
}

TEST(RulesOfThumb, KeithByHand) {
  // Light has 42 pips and no extras: with a seventh 48. Dark has 43, 44, 45, 46 and 47 pips without
  // extras: 5, 4, 3, 2 and 1 less.
  const std::string light = "light 6x3 5x4 4x1; dark ";
  EXPECT_EQ(advise("keith", light + "6x3 5x4 4x1 1x1"), CubeAdvice::hold);
  EXPECT_EQ(advise("keith", light + "6x3 5x4 4x1 2x1"), CubeAdvice::offer_take);
  EXPECT_EQ(advise("keith", light + "6x3 5x4 4x1 2x1", true), CubeAdvice::hold);
  EXPECT_EQ(advise("keith", light + "6x3 5x4 4x1 3x1", true), CubeAdvice::offer_take);
  EXPECT_EQ(advise("keith", light + "6x3 5x4 4x2"), CubeAdvice::offer_take);
  EXPECT_EQ(advise("keith", light + "6x3 5x5 4x1"), CubeAdvice::offer_drop);
}

TEST(RulesOfThumb, LowWastageByHand) {
  // 54 pips: (54 - 5) / 7 = 7 behind is the last take, 4 the first double, 5 the first redouble.
  const std::string light = "light 6x5 5x4 4x1; dark ";
  EXPECT_EQ(advise("low-wastage", light + "6x5 5x4 4x1 3x1"), CubeAdvice::hold);
  EXPECT_EQ(advise("low-wastage", light + "6x5 5x4 4x2"), CubeAdvice::offer_take);
  EXPECT_EQ(advise("low-wastage", light + "6x5 5x4 4x2", true), CubeAdvice::hold);
  EXPECT_EQ(advise("low-wastage", light + "6x6 5x4 4x1 1x1"), CubeAdvice::offer_take);
  EXPECT_EQ(advise("low-wastage", light + "6x5 5x4 4x3"), CubeAdvice::offer_drop);
}

TEST(RulesOfThumb, CostsAreThoseOfTheBestAnswer) {
  // hold 0.4, taken 0.6: double and take is right; holding loses 0.2, dropping loses 0.4.
  const CubeValues take{0.75, 0.4, 0.5, 0.3};
  EXPECT_EQ(exact_advice(take, false), CubeAdvice::offer_take);
  EXPECT_DOUBLE_EQ(cost_of(CubeAdvice::offer_take, take, false), 0.0);
  EXPECT_NEAR(cost_of(CubeAdvice::hold, take, false), 0.2, 1e-12);
  EXPECT_NEAR(cost_of(CubeAdvice::offer_drop, take, false), 0.4, 1e-12);
  EXPECT_NEAR(cost_of(CubeAdvice::hold, take, true), 0.1, 1e-12);
  // taken 1.2: double and drop; a take loses 0.2.
  const CubeValues drop{0.85, 0.9, 0.95, 0.6};
  EXPECT_EQ(exact_advice(drop, false), CubeAdvice::offer_drop);
  EXPECT_NEAR(cost_of(CubeAdvice::offer_take, drop, false), 0.2, 1e-12);
  EXPECT_NEAR(cost_of(CubeAdvice::hold, drop, false), 0.1, 1e-12);
}

TEST(RulesOfThumb, JudgingAddsUp) {
  const RacePopulation population{"test", 3, 5, 8, 25};
  for (const RuleOfThumb& rule : rules_of_thumb()) {
    const RuleScore score = score_rule(rule, population, small_races(), false, 37);
    EXPECT_GT(score.races, 100U);
    EXPECT_GT(score.right, score.races / 10) << rule.id;
    EXPECT_LT(score.right, score.races) << rule.id;
    // Every race with a loss has at least one mistake, at most one of the offer and one of the
    // answer.
    const std::size_t mistakes =
        score.wrong_hold + score.wrong_offer + score.wrong_take + score.wrong_drop;
    EXPECT_GE(mistakes, score.races - score.right);
    EXPECT_LE(mistakes, 2 * (score.races - score.right));
    EXPECT_GE(score.largest_cost, score.cost);
  }
}

}  // namespace
}  // namespace pointwright

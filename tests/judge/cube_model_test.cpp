#include "judge/cube_model.hpp"

#include <gtest/gtest.h>

#include "chance/bearoff.hpp"
#include "chance/money_cube.hpp"
#include "chance/race.hpp"
#include "chance/rules_of_thumb.hpp"
#include "chance/two_sided.hpp"

namespace pointwright::judge {
namespace {

Chances race(double win) {
  Chances chances;
  chances.win = static_cast<float>(win);
  return chances;
}

CubeSituation money(CubeAccess access) {
  CubeSituation situation;
  situation.access = access;
  return situation;
}

// E. Keeler and J. Spencer, "Optimal Doubling in Backgammon", Operations Research 23(6), 1975: in
// the continuous game both sides double at 80 per cent and drop below 20.
TEST(CubeModel, ALiveCubeIsTurnedAtEightyPerCent) {
  CubeSituation live = money(CubeAccess::mine);
  live.life = 1;
  EXPECT_EQ(decide(race(0.79), live).action, CubeAction::hold);
  EXPECT_EQ(decide(race(0.79), live).reply, CubeReply::take);
  EXPECT_EQ(decide(race(0.81), live).reply, CubeReply::drop);
  EXPECT_EQ(decide(race(0.81), live).action, CubeAction::offer);
}

// Common practice, exact on the last roll: a dead cube is doubled from 50 and taken up to 75.
TEST(CubeModel, ADeadCubeIsTurnedAtFiftyAndTakenToSeventyFive) {
  CubeSituation dead = money(CubeAccess::centred);
  dead.life = 0;
  EXPECT_EQ(decide(race(0.49), dead).action, CubeAction::hold);
  EXPECT_EQ(decide(race(0.51), dead).action, CubeAction::offer);
  EXPECT_EQ(decide(race(0.74), dead).reply, CubeReply::take);
  EXPECT_EQ(decide(race(0.76), dead).reply, CubeReply::drop);
  EXPECT_NEAR(decide(race(0.76), dead).equity(), 1, 1e-12);
}

TEST(CubeModel, WithGammonsAPositionCanBeTooGood) {
  const Chances strong{0.9F, 0.6F, 0.05F, 0.01F, 0};
  const CubeDecision decision = decide(strong, money(CubeAccess::centred));
  EXPECT_EQ(decision.action, CubeAction::too_good);
  EXPECT_EQ(decision.reply, CubeReply::drop);
  EXPECT_GT(decision.hold, 1);
  EXPECT_NEAR(decision.action_margin, decision.hold - 1, 1e-12);
  EXPECT_EQ(decision.equity(), decision.hold);

  CubeSituation jacoby = money(CubeAccess::centred);
  jacoby.jacoby = true;
  EXPECT_EQ(decide(strong, jacoby).action, CubeAction::offer);
  jacoby.access = CubeAccess::mine;  // turned already: gammons count
  EXPECT_EQ(decide(strong, jacoby).action, CubeAction::too_good);
  CubeSituation no_gammons = money(CubeAccess::centred);
  no_gammons.gammons = false;
  EXPECT_EQ(decide(strong, no_gammons).action, CubeAction::offer);
}

TEST(CubeModel, WhoeverMayNotOfferDoesNot) {
  for (const CubeAccess access : {CubeAccess::theirs, CubeAccess::none})
    EXPECT_EQ(decide(race(0.8), money(access)).action, CubeAction::none);
  // Without a cube the hold is the plain equity.
  EXPECT_NEAR(decide(race(0.8), money(CubeAccess::none)).hold, 0.6, 1e-6);
}

TEST(CubeModel, AWrongDoubleIsBeavered) {
  CubeSituation situation = money(CubeAccess::centred);
  situation.beavers = true;
  const CubeDecision decision = decide(race(0.3), situation);
  EXPECT_EQ(decision.reply, CubeReply::beaver);
  EXPECT_EQ(decision.action, CubeAction::hold);
  situation.beavers = false;
  EXPECT_NEAR(decision.take, 2 * decide(race(0.3), situation).take, 1e-12);
}

TEST(CubeModel, AtTheLastPointsNobodyGainsByTheCube) {
  CubeSituation situation;
  situation.match = chance::Needs{1, 1, false};
  EXPECT_EQ(decide(race(0.7), situation).action, CubeAction::none);
  // After the Crawford game the side behind loses nothing by doubling at once.
  situation.match = chance::Needs{3, 1, true};
  EXPECT_EQ(decide(race(0.5), situation).action, CubeAction::offer);
  // Two points each: the last cube is dead for the taker, so the take point is that of the score.
  situation.match = chance::Needs{2, 2, false};
  const auto& table = chance::standard_match_table();
  const chance::ScoreDecision at_score =
      chance::decide_at_score(table, chance::Needs{2, 2, false}, 1);
  EXPECT_EQ(decide(race(1 - at_score.dead_take_point - 0.002), situation).reply, CubeReply::take);
  EXPECT_EQ(decide(race(1 - at_score.dead_take_point + 0.002), situation).reply, CubeReply::drop);
}

TEST(CubeModel, BothSidesSeeTheSameGame) {
  const Chances chances{0.6F, 0.2F, 0.01F, 0.1F, 0.0F};
  for (const CubeAccess access :
       {CubeAccess::centred, CubeAccess::mine, CubeAccess::theirs, CubeAccess::none}) {
    CubeSituation situation = money(access);
    for (const bool match : {false, true}) {
      if (match) situation.match = chance::Needs{4, 6, false};
      EXPECT_NEAR(cubeful_equity(chances, situation, false),
                  -cubeful_equity(chances.reversed(), passed_on(situation), false), 1e-5)
          << static_cast<int>(access) << match;
    }
  }
}

TEST(CubeModel, ReadsTheSituationOfAPosition) {
  const auto at = [](std::string_view line) {
    const Position position = *read_position(line);
    return cube_situation(position, Side::light);
  };
  const std::string checkers = "light 6x5; dark 6x5; light to roll";
  EXPECT_EQ(at(checkers)->access, CubeAccess::centred);
  EXPECT_EQ(at(checkers)->life, bearoff_cube_life);
  EXPECT_EQ(at("light 7x1 6x5; dark 6x5; light to roll")->life, usual_cube_life);
  EXPECT_EQ(at(checkers + "; cube 2 with light")->access, CubeAccess::mine);
  EXPECT_EQ(at(checkers + "; cube 2 with dark")->access, CubeAccess::theirs);
  EXPECT_EQ(at(checkers + "; match to 5 score 4-2 crawford")->access, CubeAccess::none);
  EXPECT_EQ(at(checkers + "; match to 5 score 3-2")->match->mine, 2);
  EXPECT_FALSE(at(checkers + "; match to 99 score 3-2"));
}

/// The chance from the table of each side alone, as in any race that no exact table holds.
RuleReading by_the_model(const RaceView& race_view, bool owned) {
  const OneSidedTable<double>& table = home_table();
  const auto spread = [&](const Camp& camp) { return table.spread(table.family().rank(camp)); };
  const double win = first_is_sooner(spread(race_view.on_roll), spread(race_view.waiting));
  CubeSituation situation = money(owned ? CubeAccess::mine : CubeAccess::centred);
  situation.life = bearoff_cube_life;
  const CubeDecision decision = decide(race(win), situation);
  // As a lead of 0, 1 or 2 where 1 is both the least to double with and the most to take against.
  double lead = 0;
  if (decision.action == CubeAction::offer) lead = decision.reply == CubeReply::drop ? 2 : 1;
  return {.lead = lead, .offer_from = 1, .take_to = 1};
}

// On short races, checked against the exact answers with every rule of thumb beside it: every 7th
// pair of one to six checkers a side. docs/decisions/cube-model.md has the numbers of all.
TEST(CubeModel, IsMoreOftenRightInRacesThanEveryRuleOfThumb) {
  const RuleOfThumb model{"model", "the model", "", "", by_the_model, nullptr};
  const RacePopulation population{"short", 1, 6, 1, 36};
  for (const bool owned : {false, true}) {
    const RuleScore score = score_rule(model, population, small_races(), owned, 7);
    RecordProperty(owned ? "right_owned" : "right_centred",
                   std::to_string(100.0 * static_cast<double>(score.right) /
                                  static_cast<double>(score.races)));
    for (const RuleOfThumb& rule : rules_of_thumb()) {
      const RuleScore other = score_rule(rule, population, small_races(), owned, 7);
      EXPECT_GT(score.right, other.right) << rule.name << (owned ? " owned" : " centred");
    }
  }
}

// Both with two checkers on the 6: the chances are made up, the situation is that of a bear-off.
TEST(CubeModel, DecidesForAPositionAccordingToItsChances) {
  const Position race = *read_position("light 6x2; dark 6x2; light to roll");
  Chances chances;
  chances.win = 0.5F;
  EXPECT_EQ(decide(chances, race)->action, CubeAction::hold);
  EXPECT_EQ(decide(chances, race)->reply, CubeReply::take);
  chances.win = 0.76F;
  EXPECT_EQ(decide(chances, race)->action, CubeAction::offer);
  EXPECT_EQ(decide(chances, race)->reply, CubeReply::take);
  chances.win = 0.9F;
  EXPECT_EQ(decide(chances, race)->action, CubeAction::offer);
  EXPECT_EQ(decide(chances, race)->reply, CubeReply::drop);
  chances.win_gammon = 0.6F;  // worth more than a point
  EXPECT_EQ(decide(chances, race)->action, CubeAction::too_good);
}

}  // namespace
}  // namespace pointwright::judge

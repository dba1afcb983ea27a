#include "train/cube_check.hpp"

#include <gtest/gtest.h>

#include "chance/two_sided.hpp"
#include "judge/shipped.hpp"
#include "rules/position.hpp"

namespace pointwright::train {
namespace {

CubeQuestion question_of(float win, CubeAccess access) {
  CubeQuestion question;
  question.board = starting_board();
  question.situation.access = access;
  question.chances.win = win;
  return question;
}

// Equities that the model itself gives with some life lead back to that life.
TEST(CubeCheck, FindsTheLifeThatTheEquitiesWereMadeWith) {
  std::vector<CubeQuestion> questions;
  std::vector<CubeAnswers> answers;
  for (const float win : {0.55F, 0.62F, 0.70F, 0.78F}) {
    CubeQuestion question = question_of(win, CubeAccess::centred);
    question.situation.life = 0.37;
    const judge::CubeDecision decision = judge::decide(question.chances, question.situation);
    CubeAnswers found;
    found.all = {decision.hold, decision.take};
    questions.push_back(question);
    answers.push_back(found);
  }
  for (const CubeWorth worth : {CubeWorth::hold, CubeWorth::take}) {
    const FittedLife fitted = fitted_life(questions, answers, worth);
    EXPECT_NEAR(fitted.life, 0.37, 1e-6);
    EXPECT_NEAR(fitted.error, 0, 1e-6);
    EXPECT_NEAR(fitted.off, 0, 1e-6);
  }
}

TEST(CubeCheck, CountsWhatTheModelsChoiceLoses) {
  const CubeQuestion question = question_of(0.9F, CubeAccess::centred);  // doubles, and is dropped
  CubeAnswers answers;
  const auto set = [&](CubeAnswers::Half first, CubeAnswers::Half second) {
    answers.halves = {first, second};
    answers.all = {(first.hold + second.hold) / 2, (first.take + second.take) / 2};
  };
  set({0.7, 1.3}, {0.6, 1.2});
  CubeCost cost = cost_of(question, answers, 0.68);
  EXPECT_EQ(cost.action, 0);
  EXPECT_EQ(cost.reply, 0);
  EXPECT_TRUE(cost.same_action && cost.same_reply);
  // Too good to double, and a take.
  set({1.2, 1.3}, {1.1, 1.2});
  cost = cost_of(question, answers, 0.68);
  EXPECT_NEAR(cost.action, 0.15, 1e-12);
  EXPECT_FALSE(cost.same_action);
  set({0.6, 0.8}, {0.5, 0.9});
  cost = cost_of(question, answers, 0.68);
  EXPECT_NEAR(cost.reply, 0.15, 1e-12);
  EXPECT_FALSE(cost.same_reply);
}

// Where a table knows the race the rollout is exact.
TEST(CubeCheck, RollsOutWhatHoldingAndDoublingAreWorth) {
  CubeQuestion question = question_of(0.5F, CubeAccess::centred);
  question.board = read_position("light 5x1 2x1; dark 4x1 1x1")->board;
  const CubeAnswers found = roll_out(judge::shipped_evaluator(), question, {.trials = 72}, 1);
  const auto& family = small_races().family();
  const CubeValues values = small_races().values(family.rank(question.board.of(Side::light)),
                                                 family.rank(question.board.of(Side::dark)));
  EXPECT_NEAR(found.all.hold, values.hold(CubeAccess::centred), 1e-6);
  EXPECT_NEAR(found.all.take, values.offered_and_taken(), 1e-6);
  EXPECT_NEAR(found.hold_error, 0, 1e-6);
}

TEST(CubeCheck, AsksCloseQuestionsOncePerGame) {
  const CubeCheckOptions options{.positions = 4};
  const auto questions = cube_questions(judge::shipped_evaluator(), options);
  ASSERT_EQ(questions.size(), 4U);
  for (const CubeQuestion& question : questions) {
    EXPECT_TRUE(has_contact(question.board));
    const judge::CubeDecision decision = judge::decide(question.chances, question.situation);
    EXPECT_TRUE(decision.action_margin <= options.near_action ||
                decision.reply_margin <= options.near_reply);
  }
  EXPECT_EQ(questions[0].situation.access, CubeAccess::centred);
  EXPECT_EQ(questions[1].situation.access, CubeAccess::mine);
  const auto again = cube_questions(judge::shipped_evaluator(), options);
  EXPECT_EQ(again[3].board, questions[3].board);
}

}  // namespace
}  // namespace pointwright::train

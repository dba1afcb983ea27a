#include "train/judge_set.hpp"

#include <gtest/gtest.h>

#include "judge/shipped.hpp"
#include "rules/position.hpp"

namespace pointwright::train {
namespace {

Board board(std::string_view line) {
  return read_position(line)->board;
}

TEST(Kinds, AreToldApart) {
  EXPECT_EQ(kind_of(starting_board()), Kind::opening);
  EXPECT_EQ(kind_of(board("light 6x5 5x5 4x5; dark 6x5 5x5 4x5")), Kind::race);
  EXPECT_EQ(kind_of(board("light 8x2 6x5 5x4 4x4; dark 24x2 13x5 8x3 6x5")), Kind::bear_in);
  EXPECT_EQ(kind_of(board("light 24x2 22x2 13x2 6x5 5x4; dark 13x2 11x2 8x4 6x3 5x2 2x2")),
            Kind::back_game);
  EXPECT_EQ(kind_of(board("light 24x1 13x2 8x2 7x2 6x3 5x3 4x2; dark 24x2 13x5 8x3 6x5")),
            Kind::prime);
  EXPECT_EQ(kind_of(board("light barx1 24x1 13x5 8x3 6x5; dark 13x2 9x2 8x3 6x4 4x2 3x2")),
            Kind::attack);
  EXPECT_EQ(kind_of(board("light 20x2 13x4 8x3 6x4 4x2; dark 13x4 10x2 8x3 6x4 4x2")),
            Kind::holding_game);
  for (const Kind kind : all_kinds) EXPECT_EQ(kind_named(name(kind)), kind);
  EXPECT_FALSE(kind_named("anything"));
}

JudgeSetOptions few() {
  JudgeSetOptions options;
  options.per_kind = 1;
  options.most_trials = 72;
  options.rollout.truncate_after = 2;
  return options;
}

TEST(JudgeSet, IsTheSameForTheSameSeedAndGoesThroughItsFile) {
  const judge::Evaluator& evaluator = judge::shipped_evaluator();
  constexpr std::size_t judged = 2;
  const auto make = [&] {
    auto decisions = choose_decisions(evaluator, few(), {});
    for (std::size_t i = 0; i < judged; ++i) judge_decision(evaluator, few(), decisions[i]);
    return decisions;
  };
  const auto decisions = make();
  ASSERT_EQ(decisions.size(), all_kinds.size());
  const std::string csv = to_csv(decisions, {"made by a test"});
  EXPECT_EQ(to_csv(make(), {"made by a test"}), csv);
  for (std::size_t i = 0; i < decisions.size(); ++i) {
    EXPECT_EQ(decisions[i].kind, all_kinds[i]);
    EXPECT_EQ(kind_of(decisions[i].board), decisions[i].kind);
    ASSERT_GE(decisions[i].plays.size(), 2U);
    EXPECT_EQ(decisions[i].plays[0].trials, i < judged ? 72U : 0U);
  }
  const auto read = read_csv(csv);
  ASSERT_TRUE(read) << read.error();
  EXPECT_EQ(to_csv(*read, {"made by a test"}), csv);
}

TEST(JudgeSet, ADamagedFileIsToldByItsLine) {
  const auto wrong = [](const std::string& csv) { return read_csv(csv).error(); };
  EXPECT_EQ(wrong(""), "there are no decisions in it");
  EXPECT_EQ(wrong("# a\nnonsense\n"), "line 2: these are not the columns of a set");
  const std::string columns =
      "decision,kind,part,position,play,one_step,trials,equity,error,behind,behind_error,even,odd,"
      "win,win_gammon,win_backgammon,lose_gammon,lose_backgammon,win_error,gammon_error\n";
  EXPECT_EQ(wrong(columns + "1,opening\n"), "line 2: has 2 fields, not 20");
  const std::string start = "light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; light to play 3-1";
  const auto line = [&](const std::string& kind, const std::string& play,
                        const std::string& number) {
    return columns + "1," + kind + ",tuning," + start + "," + play + "," + number +
           ",72,0,0,0,0,0,0,0,0,0,0,0,0,0\n";
  };
  EXPECT_TRUE(read_csv(line("opening", "8/5 6/5", "0.1")));
  EXPECT_EQ(wrong(line("opening", "8/5 6/5", "x")), "line 2: field 6, \"x\", is not a number");
  EXPECT_EQ(wrong(line("opening", "8/1", "0")), "line 2: 8/1 is not a legal play");
  EXPECT_EQ(wrong(line("odd", "8/5 6/5", "0")), "line 2: \"odd\" is no kind of position");
}

TEST(Loss, IsJudgedByTheOtherHalfOfTheTrials) {
  Judged decision;
  const auto add = [&](Place point, double even, double odd, std::uint64_t trials) {
    JudgedPlay play;
    play.after.of(Side::light)[point] = 1;
    play.even = even;
    play.odd = odd;
    play.equity = (even + odd) / 2;
    play.trials = trials;
    play.behind = decision.plays.empty() ? 0 : decision.plays[0].equity - play.equity;
    play.behind_error = 0.01;
    play.one_step = play.equity;
    decision.plays.push_back(play);
  };
  add(1, 0.5, 0.3, 72);   // best, and by the even half
  add(2, 0.3, 0.4, 72);   // best by the odd half
  add(3, 0.1, 0.1, 36);   // dropped
  add(4, -0.2, -0.2, 0);  // known by one step only
  const auto loss = [&](std::size_t i) { return loss_of(decision, decision.plays[i].after); };
  // The even half says 1 is best, the odd half 2.
  EXPECT_NEAR(loss(0).equity, ((0.3 - 0.3) + (0.3 - 0.5)) / 2, 1e-12);
  EXPECT_NEAR(loss(1).equity, ((0.3 - 0.4) + (0.3 - 0.3)) / 2, 1e-12);
  EXPECT_NEAR(loss(2).equity, 0.3, 1e-12);
  EXPECT_NEAR(loss(3).equity, 0.6, 1e-12);
  EXPECT_TRUE(loss(0).tie);
  EXPECT_FALSE(loss(1).tie);
  EXPECT_TRUE(loss(3).outside);
}

}  // namespace
}  // namespace pointwright::train

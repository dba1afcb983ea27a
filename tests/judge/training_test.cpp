#include <gtest/gtest.h>

#include <cmath>

#include "judge/shipped.hpp"
#include "train/learner.hpp"
#include "train/self_play.hpp"

namespace pointwright::train {
namespace {

TEST(Learner, MovesTowardsItsTarget) {
  Learner learner(random_weights(16, 1));
  const judge::Chances target{0.8F, 0.3F, 0.0F, 0.1F, 0.0F};
  const auto error = [&] {
    const judge::Chances now =
        judge::Net(learner.weights()).evaluate(starting_board(), Side::light);
    return std::abs(now.win - target.win) + std::abs(now.win_gammon - target.win_gammon);
  };
  const float before = error();
  for (int i = 0; i < 200; ++i) learner.learn(starting_board(), Side::light, target, 0.05F);
  EXPECT_LT(error(), before / 4);
}

TEST(SelfPlay, IsTheSameForTheSameDice) {
  Game first;
  Game second;
  std::mt19937_64 a(7);
  std::mt19937_64 b(7);
  play_game(judge::shipped_evaluator(), {}, a, first);
  play_game(judge::shipped_evaluator(), {}, b, second);
  ASSERT_EQ(first.visits.size(), second.visits.size());
  ASSERT_FALSE(first.visits.empty());
  for (std::size_t i = 0; i < first.visits.size(); ++i)
    EXPECT_EQ(first.visits[i].board, second.visits[i].board);
  EXPECT_NE(first.end.origin, judge::Origin::contact_net);
}

}  // namespace
}  // namespace pointwright::train

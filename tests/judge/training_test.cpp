#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "judge/shipped.hpp"
#include "train/adam.hpp"
#include "train/duel.hpp"
#include "train/gradient.hpp"
#include "train/practice.hpp"
#include "train/self_play.hpp"
#include "train/trainer.hpp"

namespace pointwright::train {
namespace {

/// Some positions that differ, with any targets.
std::vector<Lesson> some_lessons(std::size_t count) {
  std::vector<Lesson> lessons;
  Practice(3, 0.25).fill(judge::shipped_evaluator(), 0, count, lessons);
  return lessons;
}

double cross_entropy(const judge::Weights& weights, const std::vector<Lesson>& lessons) {
  const judge::Net net(weights);
  double sum = 0;
  for (const Lesson& lesson : lessons) {
    const auto now = net.evaluate(lesson.visit.board, lesson.visit.on_roll);
    const auto add = [&](float wanted, float given) {
      const double p = std::clamp(static_cast<double>(given), 1e-6, 1 - 1e-6);
      sum -= static_cast<double>(wanted) * std::log(p) +
             (1 - static_cast<double>(wanted)) * std::log(1 - p);
    };
    add(lesson.target.win, now.win);
    add(lesson.target.win_gammon, now.win_gammon);
    add(lesson.target.lose_gammon, now.lose_gammon);
  }
  return sum / static_cast<double>(lessons.size());
}

TEST(Adam, LowersTheErrorOverABatchWhateverTheNumberOfParts) {
  const auto lessons = some_lessons(200);
  const auto trained = [&](std::size_t parts) {
    judge::Weights weights = random_weights(16, 1);
    Adam adam(weights.hidden);
    std::vector<Gradient> gradients(1, Gradient(weights.hidden));
    for (long step = 1; step <= 100; ++step) {
      gradients[0].clear();
      for (const Lesson& lesson : lessons)
        gradients[0].add(weights, lesson.visit.board, lesson.visit.on_roll, lesson.target);
      for (std::size_t part = 0; part < parts; ++part)
        adam.step(weights, gradients, 0.01F, step, part, parts);
    }
    return weights;
  };
  const judge::Weights once = trained(1);
  EXPECT_EQ(once.first, trained(7).first);
  EXPECT_LT(cross_entropy(once, lessons), cross_entropy(random_weights(16, 1), lessons) * 0.6);
}

TEST(Gradient, IsTheSlopeOfTheCrossEntropy) {
  const auto lessons = some_lessons(1);
  const Lesson& lesson = lessons.front();
  judge::Weights weights = random_weights(16, 5);
  Gradient gradient(weights.hidden);
  gradient.add(weights, lesson.visit.board, lesson.visit.on_roll, lesson.target);
  // The win output's slope by its bias is target - output, whatever came before it.
  const float now = judge::Net(weights).evaluate(lesson.visit.board, lesson.visit.on_roll).win;
  EXPECT_NEAR(gradient.sums().third_bias[0], lesson.target.win - now, 0.002);
  EXPECT_EQ(gradient.positions(), 1U);
}

TEST(Train, GivesTheSameNetsAgainAndLearns) {
  const Training how{.workers = 2, .batch = 128, .steps = 4, .rounds = 50, .first_rate = 0.003F};
  const auto trained = [&] {
    judge::WeightsByPhase nets{random_weights(16, 1), random_weights(16, 2), random_weights(16, 3),
                               random_weights(16, 4)};
    std::uint64_t heard = 0;
    train(nets, how, [&](const Report& report) { heard = report.rounds; });
    EXPECT_EQ(heard, how.rounds);
    return nets[0];
  };
  const judge::Weights once = trained();
  EXPECT_EQ(once.first, trained().first);
  // Targets that the shipped nets set, from games that the training has not seen.
  auto lessons = some_lessons(1000);
  std::erase_if(lessons, [](const Lesson& one) {
    return judge::phase_of(one.visit.board) != judge::Phase::open;
  });
  EXPECT_LT(cross_entropy(once, lessons), cross_entropy(random_weights(16, 1), lessons) * 0.95);
}

TEST(Duel, GivesNothingBetweenEqualsAndTheSameOnAnyNumberOfThreads) {
  const judge::Evaluator& shipped = judge::shipped_evaluator();
  EXPECT_EQ(play_duel(shipped, shipped, 40, 1, 2).points, 0);
  const judge::Evaluator poor(
      {random_weights(16, 1), random_weights(16, 2), random_weights(16, 3), random_weights(16, 4)});
  const Duel duel = play_duel(shipped, poor, 100, 3, 1);
  EXPECT_EQ(duel.points, play_duel(shipped, poor, 100, 3, 2).points);
  EXPECT_GT(duel.points, 4 * duel.error);
  EXPECT_GT(duel.points, 0.5);
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

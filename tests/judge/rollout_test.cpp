#include "judge/rollout.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <set>
#include <string>

#include "chance/two_sided.hpp"
#include "judge/shipped.hpp"
#include "rules/position.hpp"

namespace pointwright::judge {
namespace {

Board board(std::string_view line) {
  return read_position(line)->board;
}

Tally roll_out(const Board& board, Side on_roll, const RolloutSettings& settings,
               std::uint64_t blocks) {
  Rollout rollout(shipped_evaluator(), settings, {{board, on_roll}}, on_roll);
  Tally tally;
  for (std::uint64_t i = 0; i < blocks; ++i) rollout.add_block(i, tally);
  return tally;
}

TEST(Moments, AreThoseOfTheNumbers) {
  std::mt19937_64 random(1);
  Moments moments;
  double sum = 0;
  double squares = 0;
  constexpr std::uint64_t count = 1000;
  for (std::uint64_t i = 0; i < count; ++i) {
    const double value = static_cast<double>(random() % 2000000) / 1e6 - 1;
    moments.add(value);
    sum += value;
    squares += value * value;
  }
  const double mean = sum / count;
  EXPECT_NEAR(moments.mean(count), mean, 1e-7);
  EXPECT_NEAR(moments.error(count), std::sqrt((squares / count - mean * mean) / (count - 1)), 1e-7);
  EXPECT_TRUE(std::isinf(moments.error(1)));
}

TEST(Tally, PartsInAnyOrderAreTheWholeToTheLastBit) {
  std::mt19937_64 random(2);
  const auto value = [&] { return static_cast<double>(random()) / 1e18 - 9; };
  Tally whole(3);
  std::vector<Tally> parts(7, Tally(3));
  for (int i = 0; i < 500; ++i) {
    std::vector<Tally::Outcome> outcomes(3);
    for (auto& outcome : outcomes) {
      outcome.equity = value();
      for (double& chance : outcome.chances) chance = value();
    }
    whole.add(outcomes);
    parts[random() % parts.size()].add(outcomes);
  }
  Tally merged(3);
  for (std::size_t i = parts.size(); i-- > 0;) merged.merge(parts[i]);
  EXPECT_EQ(merged, whole);
  EXPECT_EQ(whole.only({0, 1, 2}), whole);
  EXPECT_EQ(whole.only({0, 2}).lead(0, 1), whole.lead(0, 2));
  EXPECT_EQ(whole.only({0, 2}).lead_error(0, 1), whole.lead_error(0, 2));
  for (std::size_t a = 0; a < 3; ++a) {
    for (std::size_t b = a + 1; b < 3; ++b)
      EXPECT_NEAR(whole.difference(a, b).mean(whole.trials), whole.lead(a, b), 1e-9);
  }
}

TEST(Rollout, StratifiedTrialsSeeEveryPairOfThrowsOnce) {
  const RolloutSettings settings;
  std::set<std::pair<int, int>> pairs;
  for (std::uint64_t block = 0; block < 36; ++block) {
    std::set<int> first;
    std::set<int> second;
    for (std::uint64_t i = 0; i < 36; ++i) {
      const std::uint64_t trial = block * 36 + i;
      first.insert(throw_of(settings, trial, 0));
      second.insert(throw_of(settings, trial, 1));
      pairs.insert({throw_of(settings, trial, 0), throw_of(settings, trial, 1)});
    }
    EXPECT_EQ(first.size(), 36U);
    EXPECT_EQ(second.size(), 36U);
  }
  EXPECT_EQ(pairs.size(), 1296U);
}

TEST(Rollout, ThrowsAreFair) {
  RolloutSettings settings;
  std::array<int, 36> counts{};
  constexpr int trials = 36'000;
  for (std::uint64_t trial = 0; trial < trials; ++trial)
    ++counts[static_cast<std::size_t>(throw_of(settings, trial, 5))];
  double chi_square = 0;
  for (const int count : counts) chi_square += (count - 1000.0) * (count - 1000.0) / 1000.0;
  // 35 degrees of freedom: 99.9% of fair dice stay below 66.6. The seed is fixed.
  EXPECT_LT(chi_square, 66.6);
}

/// What a position is worth if both sides always make the play that looks best at once, exactly:
/// every roll is followed until a table answers.
double followed_to_the_end(Search& search, const Board& board, Side on_roll) {
  const Evaluation now = search.evaluator().evaluate(board, on_roll);
  if (is_final(now.origin)) return static_cast<double>(now.chances.equity());
  Search::Look look;
  search.look(board, on_roll, Valuation::money(), look);
  double sum = 0;
  for (std::size_t i = 0; i < look.after.size(); ++i)
    sum -= all_rolls()[i].ways() * followed_to_the_end(search, look.after[i], opponent(on_roll));
  return sum / 36;
}

TEST(Rollout, FindsTheExactValueOfItsOwnPlayWithinItsError) {
  Search search(shipped_evaluator());
  for (const char* line : {"light 8x1 3x1; dark 7x1 2x1", "light 10x1 1x1; dark 12x1 9x1",
                           "light 9x1 6x2; dark 8x1 4x1 1x1"}) {
    const Board race = board(line);
    const double exact = followed_to_the_end(search, race, Side::light);
    for (const bool adjust : {false, true}) {
      RolloutSettings settings;
      settings.adjust_luck = adjust;
      const Tally tally = roll_out(race, Side::light, settings, 12);
      EXPECT_NEAR(tally.equity(0), exact, 4 * tally.error(0) + 1e-6) << line << adjust;
    }
  }
}

TEST(Rollout, AdjustingForLuckKeepsTheMeanAndShrinksTheError) {
  const Board close = board("light 24x1 18x1 8x4 6x5 5x2 4x2; dark 24x2 13x4 8x3 6x4 4x2");
  RolloutSettings adjusted;
  RolloutSettings raw;
  raw.adjust_luck = false;
  const Tally with = roll_out(close, Side::light, adjusted, 2);
  const Tally without = roll_out(close, Side::light, raw, 60);
  // For each trial: the errors fall with the root of the number of trials.
  EXPECT_LT(with.error(0) * std::sqrt(2 / 60.0), without.error(0) / 2);
  EXPECT_NEAR(with.equity(0), without.equity(0), 4 * (with.error(0) + without.error(0)));
  EXPECT_LT(std::abs(without.chances(0).win_gammon - with.chances(0).win_gammon), 0.06F);
}

TEST(Rollout, TheSameSeedGivesTheSameNumbersInAnyOrder) {
  RolloutSettings settings;
  settings.truncate_after = 6;
  const std::vector<RolloutStart> starts{
      {board("light 24x2 13x5 8x2 6x6; dark 24x2 13x5 8x3 6x5"), Side::dark},
      {board("light 24x2 13x4 8x4 6x5; dark 24x2 13x5 8x3 6x5"), Side::dark}};
  Rollout forward(shipped_evaluator(), settings, starts, Side::light);
  Rollout backward(shipped_evaluator(), settings, starts, Side::light);
  Tally a(2);
  Tally b(2);
  for (std::uint64_t i = 0; i < 24; ++i) forward.add_trial(i, a);
  for (std::uint64_t i = 24; i-- > 0;) backward.add_trial(i, b);
  EXPECT_EQ(a, b);
  settings.seed = 2;
  Rollout other(shipped_evaluator(), settings, starts, Side::light);
  Tally c(2);
  for (std::uint64_t i = 0; i < 24; ++i) other.add_trial(i, c);
  EXPECT_NE(a, c);
}

TEST(Rollout, SeesTheSameGameFromBothSides) {
  RolloutSettings settings;
  settings.truncate_after = 4;
  const RolloutStart start{board("light 24x2 13x4 8x4 6x5; dark 24x2 13x5 8x3 6x5"), Side::dark};
  Rollout mine(shipped_evaluator(), settings, {start}, Side::dark);
  Rollout theirs(shipped_evaluator(), settings, {start}, Side::light);
  Tally a;
  Tally b;
  mine.add_block(0, a);
  theirs.add_block(0, b);
  EXPECT_NEAR(a.equity(0), -b.equity(0), 1e-6);
  EXPECT_NEAR(a.chances(0).win_gammon, b.chances(0).lose_gammon, 1e-6);
}

TEST(StopRule, WaitsForAClearLeadOrASmallError) {
  Tally tally(2);
  const auto add = [&](double first, double second) {
    Tally::Outcome a;
    Tally::Outcome b;
    a.equity = first;
    b.equity = second;
    tally.add({a, b});
  };
  for (int i = 0; i < 100; ++i) add(i % 2, (i + 1) % 2);
  StopRule rule;
  rule.least_trials = 50;
  rule.lead_in_errors = 3;
  EXPECT_FALSE(is_settled(tally, rule));
  rule.error = 0.2;
  EXPECT_TRUE(is_settled(tally, rule));
  rule.error = 0;
  for (int i = 0; i < 100; ++i) add(1, 0);
  EXPECT_TRUE(is_settled(tally, rule));
  rule.least_trials = 300;
  EXPECT_FALSE(is_settled(tally, rule));
}

/// Holding this turn, and doubling that is taken, rolled out with the same dice.
Tally with_cube(std::string_view line, std::uint64_t blocks, RolloutSettings settings = {}) {
  const Position position = *read_position(line);
  const Side side = *position.turn;
  const CubeSituation held = *cube_situation(position, side);
  CubeSituation taken = held;
  taken.cube *= 2;
  taken.access = CubeAccess::theirs;
  Rollout rollout(shipped_evaluator(), settings,
                  {{position.board, side, RolloutCube{held, false, held.cube}},
                   {position.board, side, RolloutCube{taken, false, held.cube}}},
                  side);
  Tally tally(2);
  for (std::uint64_t i = 0; i < blocks; ++i) rollout.add_block(i, tally);
  return tally;
}

TEST(CubeRollout, KnowsAtOnceWhatATableKnows) {
  // Published accounts of the cube paradox (from memory) give 0.48 and 0.22 points.
  const Tally tally = with_cube("light 5x1 2x1; dark 4x1 1x1; light to roll; cube 2 with light", 1);
  EXPECT_EQ(tally.error(0), 0);
  EXPECT_NEAR(2 * tally.equity(0), 0.478, 0.01);
  EXPECT_NEAR(2 * tally.equity(1), 0.22, 0.01);
}

TEST(CubeRollout, AgreesWithExactTablesOfRacesThatItMustPlay) {
  // Seven checkers a side are more than the evaluator's table holds.
  constexpr int checkers = 7;
  const BearoffFamily family(last_home_point, checkers);
  std::vector<TwoSidedEntry<float>> entries(std::size_t{family.size()} * family.size());
  ASSERT_TRUE(solve_two_sided(family, std::span(entries), BuildHost{}));
  const TwoSidedTable<float> table(checkers, entries);
  for (const std::string_view race :
       {"light 6x2 5x2 4x1 2x2; dark 6x2 4x2 3x1 1x2; light to roll",
        "light 6x1 5x1 4x1 3x2 2x1 1x1; dark 6x2 5x2 4x3; light to roll",
        "light 3x3 2x2 1x2; dark 5x2 3x2 2x1 1x2; light to roll; cube 2 with light"}) {
    const Position position = *read_position(race);
    const CubeValues exact = table.values(family.rank(position.board.of(Side::light)),
                                          family.rank(position.board.of(Side::dark)));
    const CubeAccess access = position.cube.holder ? CubeAccess::mine : CubeAccess::centred;
    const Tally tally = with_cube(race, 36);
    // Plays and decisions are the model's, not perfect: allow a little beside chance.
    EXPECT_NEAR(tally.equity(0), exact.hold(access), 4 * tally.error(0) + 0.01) << race;
    EXPECT_NEAR(tally.equity(1), exact.offered_and_taken(), 4 * tally.error(1) + 0.02) << race;
  }
}

TEST(CubeRollout, TakingTheLuckOutChangesNothingButTheError) {
  constexpr std::string_view line =
      "light 24x1 13x3 8x3 6x4 5x2 4x2; dark 24x2 13x5 8x3 6x5; light to roll";
  for (const std::string_view rest : {"", "; match to 5 score 2-3"}) {
    const std::string position = std::string(line) + std::string(rest);
    const Tally plain = with_cube(position, 8, {.truncate_after = 4, .adjust_luck = false});
    const Tally adjusted = with_cube(position, 8, {.truncate_after = 4});
    for (const std::size_t start : {0U, 1U}) {
      const double error = std::hypot(plain.error(start), adjusted.error(start));
      EXPECT_NEAR(plain.equity(start), adjusted.equity(start), 4 * error) << position;
      EXPECT_LT(adjusted.error(start), plain.error(start) / 2);
    }
  }
}

TEST(CubeRollout, CountsEveryCubeInOneUnit) {
  const CubeSituation points{.cube = 4};
  EXPECT_EQ(cube_equity_in(0.5, points, 2), 1);
  // In a match a single game won or lost at the situation's cube is its own unit,
  CubeSituation match{.cube = 2, .match = chance::Needs{4, 3}};
  EXPECT_NEAR(cube_equity_in(1, match, 2), 1, 1e-12);
  EXPECT_NEAR(cube_equity_in(-1, match, 2), -1, 1e-12);
  // and at a cube of 4 a loss costs the match, which in units of a cube at 2 is more than -1.
  match.cube = 4;
  EXPECT_LT(cube_equity_in(-1, match, 2), -1);
}

}  // namespace
}  // namespace pointwright::judge

#include "chance/race.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <initializer_list>
#include <random>

#include "chance/race_gammon.hpp"
#include "rules/play.hpp"
#include "rules/position.hpp"

namespace pointwright {
namespace {

Board board(std::string_view line) {
  return read_position(line).value().board;
}

/// Chance of the side on roll by the two spreads alone.
double convolved(const BearoffFamily& family, std::uint32_t on_roll, std::uint32_t waiting) {
  const auto spread = [&](std::uint32_t rank) {
    return home_table().spread(home_table().family().rank(family.camp(rank)));
  };
  return first_is_sooner(spread(on_roll), spread(waiting));
}

TEST(Race, ConvolutionErrorIsWhatItSays) {
  // Every side of up to six checkers against every other: the constant is the largest error there
  // is, rounded up in its third decimal.
  const BearoffFamily& family = small_races().family();
  double largest = 0;
  double sum = 0;
  int pairs = 0;
  for (std::uint32_t on_roll = 1; on_roll < family.size(); ++on_roll) {
    for (std::uint32_t waiting = 1; waiting < family.size(); ++waiting) {
      const double error = std::abs(convolved(family, on_roll, waiting) -
                                    small_races().values(on_roll, waiting).win);
      largest = std::max(largest, error);
      sum += error;
      ++pairs;
    }
  }
  EXPECT_LE(largest, convolution_error);
  EXPECT_GE(largest, convolution_error - 0.001);
  RecordProperty("largest", std::to_string(largest));
  RecordProperty("mean", std::to_string(sum / pairs));
}

TEST(Race, ConvolutionOfStacksIsExact) {
  // Checkers on the 1-point leave no choice, so that playing for the mean is best play and both
  // ways must agree.
  const BearoffFamily& family = small_races().family();
  for (std::uint8_t own = 1; own <= 6; ++own) {
    for (std::uint8_t other = 1; other <= 6; ++other) {
      Camp a{};
      a[1] = own;
      Camp b{};
      b[1] = other;
      EXPECT_NEAR(convolved(family, family.rank(a), family.rank(b)),
                  small_races().values(family.rank(a), family.rank(b)).win, 1e-12);
    }
  }
}

TEST(Race, AnswersSayHowTheyAreKnown) {
  const auto small = race_answer(board("light 5x1 2x1; dark 4x1 1x1"), Side::light);
  ASSERT_TRUE(small.ok());
  EXPECT_EQ(small->win_known.kind, Certainty::Kind::exact);
  ASSERT_TRUE(small->cube.has_value());
  EXPECT_NEAR(small->cube->win, small->win, 0);
  EXPECT_EQ(small->on_roll.pips, 7);

  const auto large = race_answer(board("light 6x5 5x5 4x5; dark 6x5 5x5 4x5"), Side::light);
  ASSERT_TRUE(large.ok());
  EXPECT_EQ(large->win_known.kind, Certainty::Kind::convolution);
  EXPECT_EQ(large->win_known.error, convolution_error);
  EXPECT_FALSE(large->cube.has_value());
  EXPECT_GT(large->win, 0.5);
  EXPECT_NEAR(large->on_roll.effective_pips, large->on_roll.mean_rolls * 49 / 6, 1e-12);
  EXPECT_NEAR(large->on_roll.wastage, large->on_roll.effective_pips - 75, 1e-12);
}

TEST(Race, UsesALargeTableWhereThereIsOne) {
  const BearoffFamily family(6, 7);
  std::vector<TwoSidedEntry<float>> entries(std::size_t{family.size()} * family.size());
  ASSERT_TRUE(solve_two_sided(family, std::span(entries), {}));
  const TwoSidedTable<float> seven(7, entries);
  const Board race = board("light 6x3 5x2 1x2; dark 6x2 4x2 2x2 1x1");
  const auto without = race_answer(race, Side::light);
  const auto with = race_answer(race, Side::light, {&seven});
  ASSERT_TRUE(without.ok() && with.ok());
  EXPECT_EQ(without->win_known.kind, Certainty::Kind::convolution);
  EXPECT_EQ(with->win_known.kind, Certainty::Kind::exact);
  EXPECT_NEAR(with->win, without->win, without->win_known.error);
}

TEST(Race, SaysWhyThereIsNoAnswer) {
  const auto contact = race_answer(board("light 24x1 1x1; dark 2x1"), Side::light);
  ASSERT_FALSE(contact.ok());
  EXPECT_EQ(contact.error(), NoRace::contact);
  const auto far = race_answer(board("light 13x8; dark 6x2"), Side::light);
  ASSERT_FALSE(far.ok());
  EXPECT_EQ(far.error(), NoRace::too_far);
  const auto over = race_answer(board("light offx15; dark 6x2"), Side::dark);
  ASSERT_FALSE(over.ok());
  EXPECT_EQ(over.error(), NoRace::finished);
  EXPECT_FALSE(explain(NoRace::too_far).empty());
}

TEST(RaceGammon, ForcedEndsByHand) {
  // The leader is off next turn whatever it rolls; a side with fifteen checkers on its 1-point
  // always bears one off.
  const auto saved = gammon_chance(board("light 1x2; dark 1x15"), Side::light, Side::dark);
  ASSERT_TRUE(saved.has_value());
  EXPECT_EQ(saved->chance, 0.0);
  // Leader to roll with two on the 1-point: off before the other side moves.
  const auto certain = gammon_chance(board("light 1x2; dark 1x15"), Side::light, Side::light);
  EXPECT_EQ(certain->chance, 1.0);
  // Fifteen on the 6-point: one comes off with any 6 (11 rolls), or when one checker moves six
  // pips: 5-1 and 4-2 (2 each), 3-3 and 2-2. That is 17 of 36; the other 19 lose a gammon.
  const auto six_stack = gammon_chance(board("light 1x2; dark 6x15"), Side::light, Side::dark);
  EXPECT_NEAR(six_stack->chance, 19.0 / 36, 1e-12);
  EXPECT_EQ(six_stack->known.kind, Certainty::Kind::exact);
}

TEST(RaceGammon, ConvolutionIsNearTheExactAnswer) {
  const Board race = board("light 1x3; dark 7x1 2x14");
  const auto exact = gammon_chance(race, Side::light, Side::light);
  const auto rough = gammon_chance(race, Side::light, Side::light, 10);
  ASSERT_TRUE(exact && rough);
  EXPECT_EQ(exact->known.kind, Certainty::Kind::exact);
  EXPECT_EQ(rough->known.kind, Certainty::Kind::convolution);
  EXPECT_NEAR(exact->chance, rough->chance, rough->known.error);
  EXPECT_GT(exact->chance, 0.0);
  EXPECT_LT(exact->chance, 1.0);
}

TEST(RaceGammon, AgreesWithPlainRecursionOverTheRules) {
  // The same game solved again with the rules room's plays and no memory of pairs, for a race that
  // is decided soon.
  struct Plain {
    double chance(const Board& b, Side roller) const {
      double sum = 0;
      for (const Roll roll : all_rolls()) {
        double best = roller == Side::light ? 0 : 1;
        for (const LegalPlay& play : legal_plays(b, roller, roll)) {
          if (roller == Side::light) {
            best = std::max(best,
                            has_won(play.after, Side::light) ? 1 : chance(play.after, Side::dark));
          } else {
            const bool saved = play.after.count(Side::dark, off_place) > 0;
            best = std::min(best, saved ? 0 : chance(play.after, Side::light));
          }
        }
        sum += roll.ways() * best;
      }
      return sum / 36;
    }
  };
  const Board race = board("light 2x1 1x1; dark 8x1 6x14");
  EXPECT_NEAR(gammon_chance(race, Side::light, Side::dark)->chance,
              Plain{}.chance(race, Side::dark), 1e-12);
}

TEST(RaceGammon, NeedsASideWithAllItsCheckers) {
  EXPECT_FALSE(gammon_chance(board("light 1x2; dark 1x14"), Side::light, Side::dark).has_value());
  EXPECT_FALSE(gammon_chance(board("light 1x15; dark 1x15"), Side::light, Side::dark).has_value());
  EXPECT_FALSE(gammon_chance(board("light 24x1; dark 6x15"), Side::light, Side::dark).has_value());
}

}  // namespace
}  // namespace pointwright

#include "judge/levels.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "judge/contest.hpp"
#include "judge/replies.hpp"
#include "judge/shipped.hpp"
#include "rules/position.hpp"
#include "tests/rules/random_positions.hpp"

namespace pointwright::judge {
namespace {

const Evaluator& evaluator() {
  return shipped_evaluator();
}

/// Positions of real games with a choice of plays: those of `steady` against itself.
struct Decision {
  Board board;
  Side side = Side::light;
  Roll roll{2, 1};
};
std::vector<Decision> decisions(std::size_t count) {
  std::vector<Decision> result;
  RandomStream random(21);
  Search search(evaluator());
  Board board = starting_board();
  Side side = Side::light;
  while (result.size() < count) {
    const Roll roll(1 + random.below(6), 1 + random.below(6));
    if (legal_plays(board, side, roll).size() > 1) result.push_back({board, side, roll});
    board = search.best_after(board, side, roll, 0);
    if (has_won(board, side)) board = starting_board();
    side = opponent(side);
  }
  return result;
}

TEST(Levels, HaveNamesOfTheirOwnAndAreFound) {
  std::set<std::string_view> names;
  for (const Level& level : levels()) {
    EXPECT_TRUE(names.insert(level.name).second);
    EXPECT_FALSE(level.statement.empty());
    EXPECT_EQ(find_level(level.name), &level);
  }
  EXPECT_EQ(find_level("nobody"), nullptr);
}

TEST(Levels, WithoutBlurPlayWhatTheirSearchFindsBest) {
  Search search(evaluator());
  for (const char* name : {"steady", "strong"}) {
    const Level& level = *find_level(name);
    Opponent player(evaluator(), level, 1);
    for (const Decision& at : decisions(60)) {
      EXPECT_EQ(player.choose(at.board, at.side, at.roll).after,
                search.best_after(at.board, at.side, at.roll, level.depth));
    }
  }
}

TEST(Levels, PlayLegallyAndTheSameWithTheSameSeed) {
  std::mt19937_64 random(22);
  for (const Level& level : levels()) {
    Opponent one(evaluator(), level, 7);
    Opponent two(evaluator(), level, 7);
    for (int i = 0; i < 60; ++i) {
      const Board any = pointwright::testing::random_board(random);
      const Roll roll(1 + static_cast<int>(random() % 6), 1 + static_cast<int>(random() % 6));
      const LegalPlay chosen = one.choose(any, Side::dark, roll);
      EXPECT_EQ(chosen.after, two.choose(any, Side::dark, roll).after);
      bool legal = false;
      const auto plays = legal_plays(any, Side::dark, roll);
      for (const LegalPlay& play : plays) legal = legal || play.after == chosen.after;
      EXPECT_TRUE(legal || (plays.empty() && chosen.play.empty() && chosen.after == any));
    }
  }
}

TEST(Sight, WithoutLimitsIsTheLookOneRollAhead) {
  for (const Decision& at : decisions(25)) {
    const LegalPlay play = legal_plays(at.board, at.side, at.roll).front();
    if (has_won(play.after, at.side)) continue;
    const chance::NextRoll next(play.after, opponent(at.side));
    const Valuation money = Valuation::money();
    const double all = worth_in_sight(evaluator(), play.after, at.side, Sight::all, money);
    EXPECT_NEAR(all, look(evaluator(), next, money).worth, 1e-6);
    // The less of the other side's hits it reckons with, the better things look.
    const double direct = worth_in_sight(evaluator(), play.after, at.side, Sight::direct, money);
    const double none = worth_in_sight(evaluator(), play.after, at.side, Sight::none, money);
    EXPECT_GE(direct, all - 1e-9);
    EXPECT_GE(none, direct - 1e-9);
  }
}

TEST(Sight, OverlooksExactlyTheShotsThatItSays) {
  const Valuation money = Valuation::money();
  const auto worth = [&](std::string_view line, Sight sight) {
    return worth_in_sight(evaluator(), read_position(line)->board, Side::light, sight, money);
  };
  // A blot seven pips away: only two dice together hit it.
  const char* far = "light 8x1 6x2 2x2; dark 24x1 6x2; dark to roll";
  EXPECT_LT(worth(far, Sight::all), worth(far, Sight::direct));
  EXPECT_EQ(worth(far, Sight::none), worth(far, Sight::direct));
  // And five pips away, where a single die does.
  const char* near = "light 6x1 7x2 2x2; dark 24x1 6x2; dark to roll";
  EXPECT_EQ(worth(near, Sight::all), worth(near, Sight::direct));
  EXPECT_LT(worth(near, Sight::direct), worth(near, Sight::none));
}

TEST(Blur, MissesCloseChoicesOftenAndPlainOnesSeldom) {
  Search search(evaluator());
  Opponent player(evaluator(), *find_level("regular"), 5);
  int close = 0;
  int close_missed = 0;
  int plain = 0;
  int plain_missed = 0;
  for (const Decision& at : decisions(1500)) {
    const auto ranked = search.rank(at.board, at.side, at.roll, 0);
    const double lead = static_cast<double>(ranked[0].equity - ranked[1].equity);
    const bool missed = !(player.choose(at.board, at.side, at.roll).after == ranked[0].play.after);
    if (lead < 0.02) {
      ++close;
      close_missed += missed ? 1 : 0;
    } else if (lead > 0.15) {
      ++plain;
      plain_missed += missed ? 1 : 0;
    }
  }
  ASSERT_GT(close, 100);
  ASSERT_GT(plain, 50);
  EXPECT_GT(close_missed, close / 4);
  EXPECT_LT(plain_missed, plain / 10);
}

TEST(Adapting, ErrsAsMuchAsTheOtherSide) {
  const auto mean_loss = [&](bool other_side_errs) {
    Opponent player(evaluator(), *find_level("even"), 3);
    Search search(evaluator());
    for (const Decision& at : decisions(300)) {
      const auto ranked = search.rank(at.board, at.side, at.roll, 0);
      const std::size_t choice = other_side_errs ? 1U : 0U;
      player.observe(at.board, at.side, at.roll, ranked[choice].play.after);
      player.choose(at.board, at.side, at.roll);
    }
    EXPECT_GT(player.own().decisions, 250);
    if (other_side_errs) {
      EXPECT_NEAR(player.own().mean(), player.others().mean(), 0.35 * player.others().mean());
    }
    return player.own().mean();
  };
  EXPECT_EQ(mean_loss(false), 0);
  EXPECT_GT(mean_loss(true), 0.02);
}

TEST(Contest, TakesTheLuckOutWithoutChangingTheAverage) {
  double difference = 0;
  double squares = 0;
  double points_squares = 0;
  double adjusted_squares = 0;
  constexpr int games = 40;
  for (std::uint64_t game = 1; game <= games; ++game) {
    Opponent light(evaluator(), *find_level("steady"), game);
    Opponent dark(evaluator(), *find_level("steady"), game);
    const ContestGame one = play_game(light, dark, game);
    EXPECT_GE(std::abs(one.points), 1);
    EXPECT_LE(std::abs(one.points), 3);
    EXPECT_EQ(one.losses[0].total, 0);
    const double luck = one.points - one.adjusted;
    difference += luck;
    squares += luck * luck;
    points_squares += one.points * one.points;
    adjusted_squares += one.adjusted * one.adjusted;
  }
  EXPECT_LT(std::abs(difference) / games, 4 * std::sqrt(squares / games / games));
  EXPECT_LT(adjusted_squares, points_squares / 4);
}

TEST(Contest, TheNewcomerLosesMoreByItsPlaysAndLosesTheGames) {
  double sum = 0;
  constexpr int games = 12;
  for (std::uint64_t game = 1; game <= games; ++game) {
    Opponent light(evaluator(), *find_level("newcomer"), game);
    Opponent dark(evaluator(), *find_level("steady"), game);
    const ContestGame one = play_game(light, dark, game);
    EXPECT_GT(one.losses[0].mean(), one.losses[1].mean());
    sum += one.adjusted;
  }
  EXPECT_LT(sum / games, -0.3);
}

}  // namespace
}  // namespace pointwright::judge

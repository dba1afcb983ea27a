#pragma once

// Checks of a three-checker solution that use the rules room and nothing of the solver.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <set>
#include <vector>

#include "chance/three_checker.hpp"
#include "chance/two_sided.hpp"
#include "rules/play.hpp"

namespace pointwright::testing {

/// A board of two ranks, light's first.
inline Board board_of(const ThreeCheckers& index, std::uint32_t light, std::uint32_t dark) {
  Board board;
  board.of(Side::light) = index.camp(light);
  board.of(Side::dark) = index.camp(dark);
  return board;
}

/// Random boards on which both sides have checkers left, fit together, and can still meet.
class RandomEndings {
 public:
  RandomEndings(const ThreeCheckers& index, unsigned seed) : index_(index), random_(seed) {}
  Board next() {
    while (true) {
      const auto light = static_cast<std::uint32_t>(1 + random_() % (index_.size() - 1));
      const auto dark = static_cast<std::uint32_t>(1 + random_() % (index_.size() - 1));
      if (!index_.fit(light, dark)) continue;
      const Board board = board_of(index_, light, dark);
      if (has_contact(board)) return board;
    }
  }

 private:
  const ThreeCheckers& index_;
  std::mt19937 random_;
};

/// The chance and equities of one board by its plays in the rules room and the table's answers for
/// the boards they lead to.
inline std::optional<CubeValues> one_roll_ahead(const ThreeCheckerTable& table,
                                                const Board& board) {
  CubeValues sum{0, 0, 0, 0};
  for (const Roll roll : all_rolls()) {
    CubeValues best{0, -1, -1, -1};
    for (const LegalPlay& play : legal_plays(board, Side::light, roll)) {
      CubeValues reply{0, -1, -1, -1};
      if (!has_won(play.after, Side::light)) {
        const auto values = table.values(play.after, Side::dark);
        if (!values) return std::nullopt;
        reply = *values;
      }
      best.win = std::max(best.win, 1 - reply.win);
      best.hold_centred = std::max(best.hold_centred, -reply.equity(CubeAccess::centred));
      best.hold_mine = std::max(best.hold_mine, -reply.equity(CubeAccess::theirs));
      best.theirs = std::max(best.theirs, -reply.equity(CubeAccess::mine));
    }
    if (legal_plays(board, Side::light, roll).empty()) {
      const auto reply = table.values(board, Side::dark);
      if (!reply) return std::nullopt;
      best = {1 - reply->win, -reply->equity(CubeAccess::centred),
              -reply->equity(CubeAccess::theirs), -reply->equity(CubeAccess::mine)};
    }
    const double weight = roll.ways() / 36.0;
    sum.win += weight * best.win;
    sum.hold_centred += weight * best.hold_centred;
    sum.hold_mine += weight * best.hold_mine;
    sum.theirs += weight * best.theirs;
  }
  return sum;
}

inline void check_one_roll_ahead(const ThreeCheckerTable& table, int boards) {
  RandomEndings endings(table.index(), 20260102);
  int checked = 0;
  for (int i = 0; i < boards; ++i) {
    const Board board = endings.next();
    const auto here = table.values(board, Side::light);
    const auto ahead = one_roll_ahead(table, board);
    if (!here || !ahead) continue;
    ++checked;
    ASSERT_NEAR(here->win, ahead->win, 2e-5);
    ASSERT_NEAR(here->hold_centred, ahead->hold_centred, 4e-5);
    ASSERT_NEAR(here->hold_mine, ahead->hold_mine, 4e-5);
    ASSERT_NEAR(here->theirs, ahead->theirs, 4e-5);
  }
  EXPECT_GT(checked, boards / 2);
}

/// Where the sides are past each other at home, the table must say what the two-sided races say.
inline void check_against_races(const ThreeCheckerTable& table, std::uint32_t step) {
  const ThreeCheckers& index = table.index();
  const BearoffFamily& races = small_races().family();
  for (std::uint32_t on_roll = 1; on_roll < index.size(); ++on_roll) {
    if (!races.contains(index.camp(on_roll))) continue;
    for (std::uint32_t waiting = 1; waiting < index.size(); waiting += step) {
      if (!races.contains(index.camp(waiting))) continue;
      const CubeValues race =
          small_races().values(races.rank(index.camp(on_roll)), races.rank(index.camp(waiting)));
      const auto here = table.values(board_of(index, on_roll, waiting), Side::light);
      ASSERT_TRUE(here.has_value());
      ASSERT_NEAR(here->win, race.win, 1e-5);
      ASSERT_NEAR(here->hold_centred, race.hold_centred, 2e-5);
      ASSERT_NEAR(here->hold_mine, race.hold_mine, 2e-5);
      ASSERT_NEAR(here->theirs, race.theirs, 2e-5);
    }
  }
}

/// Whether light, to roll, wins one game that both sides play by the table's win chances.
inline bool play_out(const ThreeCheckerTable& table, Board board, std::mt19937& random) {
  std::uniform_int_distribution<int> die(1, 6);
  Side side = Side::light;
  std::vector<LegalPlay> plays;
  while (true) {
    legal_plays(board, side, Roll(die(random), die(random)), plays);
    const Board* best = nullptr;
    double worst_reply = 2;
    for (const LegalPlay& play : plays) {
      if (has_won(play.after, side)) return side == Side::light;
      const double reply = table.win(play.after, opponent(side));
      if (reply < worst_reply) {
        worst_reply = reply;
        best = &play.after;
      }
    }
    if (best != nullptr) board = *best;
    side = opponent(side);
  }
}

/// Plays out random positions and compares wins with the table: about one in 370 may lie beyond
/// three standard errors by chance, and none may lie beyond four and a half.
inline void check_by_simulation(const ThreeCheckerTable& table, int positions, int games) {
  RandomEndings endings(table.index(), 20260103);
  std::mt19937 random(20260104);
  int beyond_three = 0;
  double squares = 0;
  for (int i = 0; i < positions; ++i) {
    const Board board = endings.next();
    int wins = 0;
    for (int game = 0; game < games; ++game) wins += play_out(table, board, random) ? 1 : 0;
    const double truth = table.win(board, Side::light);
    const double error = std::sqrt(std::max(truth * (1 - truth), 1e-4) / games);
    const double away = std::abs(static_cast<double>(wins) / games - truth) / error;
    if (away > 3) ++beyond_three;
    squares += away * away;
    EXPECT_LT(away, 4.5);
  }
  EXPECT_LE(beyond_three, 1 + positions / 100);
  // The squares average 1 if the table is right; by how much they may stray: sqrt(2 / positions).
  EXPECT_NEAR(squares / positions, 1.0, 4 * std::sqrt(2.0 / positions));
}

}  // namespace pointwright::testing

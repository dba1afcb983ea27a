#include "judge/phase.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <set>

#include "rules/board.hpp"
#include "tests/rules/random_positions.hpp"

namespace pointwright::judge {
namespace {

/// The definition in plain loops.
bool on_own_half(const Camp& camp) {
  return std::all_of(camp.begin() + 13, camp.end(), [](int count) { return count == 0; });
}

bool two_anchors(const Camp& camp) {
  return std::count_if(camp.begin() + 19, camp.begin() + 25, [](int n) { return n >= 2; }) >= 2;
}

bool primes(const Camp& mine, const Camp& theirs) {
  for (int first = 1; first + 3 <= 24; ++first) {
    bool held = true;
    for (int point = first; point < first + 4; ++point)
      held = held && mine[static_cast<std::size_t>(point)] >= 2;
    if (!held) continue;
    // Behind the four as the other side moves: my points first - 1 to first - 3; 0 is its bar.
    for (int behind = std::max(0, first - 3); behind < first; ++behind) {
      if (theirs[static_cast<std::size_t>(bar_place - behind)] > 0) return true;
    }
  }
  return false;
}

Phase plainly(const Board& board) {
  const Camp& light = board.of(Side::light);
  const Camp& dark = board.of(Side::dark);
  if (!has_contact(board)) return Phase::race;
  if (on_own_half(light) || on_own_half(dark)) return Phase::bear_in;
  if (two_anchors(light) || two_anchors(dark) || primes(light, dark) || primes(dark, light))
    return Phase::blockade;
  return Phase::open;
}

Board turned_round(const Board& board) {
  Board other;
  other.of(Side::light) = board.of(Side::dark);
  other.of(Side::dark) = board.of(Side::light);
  return other;
}

TEST(Phase, IsWhatItsDefinitionSays) {
  std::mt19937_64 random(31);
  std::set<Phase> met;
  for (int i = 0; i < 50'000; ++i) {
    const Board board = pointwright::testing::random_board(random);
    const Phase phase = phase_of(board);
    ASSERT_EQ(phase, plainly(board)) << i;
    ASSERT_EQ(phase, phase_of(turned_round(board))) << i;
    met.insert(phase);
  }
  EXPECT_EQ(met.size(), all_phases.size());
}

TEST(Phase, BeginsOpen) {
  EXPECT_EQ(phase_of(starting_board()), Phase::open);
}

}  // namespace
}  // namespace pointwright::judge

/// The measures written out plainly, roll by roll and place by place: what the fast ones must
/// equal.
#pragma once

#include <algorithm>
#include <array>
#include <bit>
#include <cstdint>

#include "judge/features.hpp"
#include "rules/roll.hpp"

namespace pointwright::judge::plain {
namespace {  // NOLINT

/// A set of places in one side's own numbering: bit p stands for place p.
using Places = std::uint32_t;

constexpr Places bit(int place) {
  return Places{1} << static_cast<unsigned>(place);
}
constexpr Places bar_bit = bit(bar_place);
constexpr Places points_mask = bar_bit - 2;  // 1 to 24
constexpr int far_home = 18;                 // the other side's home board starts behind it

/// The two sides as one of them sees them.
struct Sight {
  Places own = 0;         ///< places with a checker of mine, the bar included
  Places own_points = 0;  ///< points with two or more of mine
  Places blots = 0;       ///< points with one opposing checker
  Places blocked = 0;     ///< points with two or more
  int on_bar = 0;
  int rear = 0;        ///< my rearmost place
  int their_rear = 0;  ///< the place of their rearmost checker in MY numbering; 0 when on their bar
};

Sight look(const Camp& mine, const Camp& theirs) {
  Sight sight;
  for (int place = 1; place <= bar_place; ++place) {
    const auto own = mine[static_cast<std::size_t>(place)];
    if (own != 0) {
      sight.own |= bit(place);
      if (own > 1 && place != bar_place) sight.own_points |= bit(place);
    }
    if (place == bar_place) break;
    const auto other = theirs[static_cast<std::size_t>(bar_place - place)];
    if (other == 1) sight.blots |= bit(place);
    if (other > 1) sight.blocked |= bit(place);
  }
  sight.on_bar = mine[bar_place];
  sight.rear = sight.own == 0 ? 0 : static_cast<int>(std::bit_width(sight.own)) - 1;
  const Places them = sight.blots | sight.blocked;
  sight.their_rear = theirs[bar_place] != 0 ? 0 : (them == 0 ? 25 : std::countr_zero(them));
  return sight;
}

Places step(Places from, int die, Places blocked) {
  return (from >> static_cast<unsigned>(die)) & points_mask & ~blocked;
}

/// The blots that a roll can hit, other obligations aside.
Places hits(const Sight& sight, int a, int b) {
  const bool is_double = a == b;
  if (sight.on_bar == 0) {
    if (is_double) {
      Places reached = sight.own;
      Places all = 0;
      for (int i = 0; i < 4; ++i) {
        reached = step(reached, a, sight.blocked);
        all |= reached;
      }
      return all & sight.blots;
    }
    const Places by_a = step(sight.own, a, sight.blocked);
    const Places by_b = step(sight.own, b, sight.blocked);
    return (by_a | by_b | step(by_a, b, 0) | step(by_b, a, 0)) & sight.blots;
  }
  const Places in_by_a = step(bar_bit, a, sight.blocked);
  if (is_double) {
    if (in_by_a == 0) return 0;
    Places reached = (sight.own & ~bar_bit) | in_by_a;
    Places all = in_by_a;
    for (int i = sight.on_bar; i < 4; ++i) {
      reached = step(reached, a, sight.blocked);
      all |= reached;
    }
    return all & sight.blots;
  }
  const Places in_by_b = step(bar_bit, b, sight.blocked);
  Places all = in_by_a | in_by_b;
  if (sight.on_bar == 1) {
    const Places rest = sight.own & ~bar_bit;
    if (in_by_a != 0) all |= step(rest | in_by_a, b, 0);
    if (in_by_b != 0) all |= step(rest | in_by_b, a, 0);
  }
  return all & sight.blots;
}

/// Chance of hitting and mean pips lost by the other side, over the 36 rolls.
void measure_shots(const Sight& sight, float& chance, float& pips) {
  chance = 0;
  pips = 0;
  if (sight.blots == 0 || sight.their_rear > sight.rear) return;
  int ways = 0;
  int lost = 0;
  for (const Roll roll : all_rolls()) {
    const Places hit = hits(sight, roll.high(), roll.low());
    if (hit == 0) continue;
    ways += roll.ways();
    // A checker hit on my point p had p pips behind it.
    lost += roll.ways() * (static_cast<int>(std::bit_width(hit)) - 1);
  }
  chance = static_cast<float>(ways) / 36.0F;
  pips = static_cast<float>(lost) / (36.0F * 12.0F);
}

/// Mean pips that the rear checker can move, alone, over the 36 rolls.
float rear_mobility(const Sight& sight) {
  if (sight.rear == 0) return 1;
  const Places rear = bit(sight.rear);
  const auto open = [&](int pips) {
    return sight.rear <= pips || ((rear >> static_cast<unsigned>(pips)) & sight.blocked) == 0;
  };
  int total = 0;
  for (const Roll roll : all_rolls()) {
    const int a = roll.high();
    const int b = roll.low();
    int moved = 0;
    if (roll.is_double()) {
      while (moved < 4 * a && open(moved + a)) moved += a;
    } else {
      const bool by_a = open(a);
      const bool by_b = open(b);
      if ((by_a || by_b) && open(a + b))
        moved = a + b;
      else
        moved = by_a ? a : (by_b ? b : 0);
    }
    total += roll.ways() * moved;
  }
  return static_cast<float>(total) / (36.0F * 8.0F);
}

/// The longest run of points that lie in `points`.
int longest_run(Places points) {
  int run = 0;
  for (; points != 0; ++run) points &= points >> 1U;
  return run;
}

void measure_side(const Camp& mine, const Sight& sight, float* out) {
  int pips = 0;
  int blots = 0;
  int spare = 0;
  int engaged = 0;
  for (int place = 1; place <= bar_place; ++place) {
    const int count = mine[static_cast<std::size_t>(place)];
    pips += place * count;
    if (count == 1 && place != bar_place) ++blots;
    if (place > last_home_point && place <= far_home) spare += (place - last_home_point) * count;
    if (place > sight.their_rear) engaged += count;
  }
  const Places home = sight.own_points & (bit(last_home_point + 1) - 2);
  const int closed = std::popcount(home);
  const Places in_front = sight.own_points & ~(bit(sight.their_rear + 1) - 1);
  const Places near =
      in_front & (sight.their_rear + 13 >= 25 ? points_mask : bit(sight.their_rear + 13) - 1);
  const Places anchors = sight.own_points & ~(bit(far_home + 1) - 1) & points_mask;
  const int foremost = anchors == 0 ? 25 : std::countr_zero(anchors);

  out[0] = static_cast<float>(pips) / 150.0F;
  measure_shots(sight, out[1], out[2]);
  out[3] = static_cast<float>(closed * closed) / 36.0F;
  out[4] = static_cast<float>(std::min(longest_run(in_front), 6)) / 6.0F;
  out[5] = static_cast<float>(std::popcount(near)) / 6.0F;
  out[6] = rear_mobility(sight);
  out[7] = static_cast<float>(blots) / 5.0F;
  out[8] = static_cast<float>(engaged) / 15.0F;
  out[9] = static_cast<float>(spare) / 60.0F;
  out[10] = static_cast<float>(bar_place - foremost) / 6.0F;
  out[11] = static_cast<float>(std::max(0, sight.rear - sight.their_rear)) / 24.0F;
}

}  // namespace

inline void measure(const Board& board, Side on_roll, Measures& measures) {
  const Camp& mine = board.of(on_roll);
  const Camp& theirs = board.of(opponent(on_roll));
  measure_side(mine, look(mine, theirs), measures.data());
  measure_side(theirs, look(theirs, mine), measures.data() + measures_per_side);
}

}  // namespace pointwright::judge::plain

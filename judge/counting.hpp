#pragma once

#include "judge/shots.hpp"
#include "judge/sight.hpp"

/// The measures counted with ordinary instructions; inlined as sight.hpp is.
namespace pointwright::judge {

POINTWRIGHT_INLINE void count_side(const Camp& mine, const Sight& sight, std::int16_t* out) {
  Sums sums;
  for (int place = 1; place <= bar_place; ++place) {
    const int count = mine[static_cast<std::size_t>(place)];
    sums.pips += place * count;
    sums.spare +=
        place > last_home_point && place <= far_home ? (place - last_home_point) * count : 0;
    sums.engaged += place > sight.their_rear ? count : 0;
  }
  count_shots(sight, sums);
  write_side(sight, sums, out);
}

/// The measures of both sides: see `count_measures`.
POINTWRIGHT_INLINE void count_sides(const Board& board, Side on_roll, Counts& counts) {
  const Camp& mine = board.of(on_roll);
  const Camp& theirs = board.of(opponent(on_roll));
  const Spread my_spread = spread_of(mine);
  const Spread their_spread = spread_of(theirs);
  count_side(mine, look(mine[bar_place], my_spread, their_spread, mirrored(their_spread)),
             counts.data());
  count_side(theirs, look(theirs[bar_place], their_spread, my_spread, mirrored(my_spread)),
             counts.data() + measures_per_side);
}

}  // namespace pointwright::judge

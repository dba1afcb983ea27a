#pragma once

#include <array>
#include <bit>
#include <cstdint>
#include <cstring>

#include "judge/features.hpp"
#include "rules/board.hpp"

/// What the ways of counting the measures have in common: a board as sets of places, and the
/// measures that follow from such sets by a few operations. Everything here is inlined, so that
/// each way uses the instructions that it may.
namespace pointwright::judge {

#define POINTWRIGHT_INLINE [[gnu::always_inline]] inline

/// A set of places in one side's own numbering: bit p stands for place p.
using Places = std::uint32_t;

constexpr Places bit(int place) {
  return Places{1} << static_cast<unsigned>(place);
}
inline constexpr Places bar_bit = bit(bar_place);
inline constexpr Places points_mask = bar_bit - 2;  // 1 to 24
inline constexpr Places home_mask = bit(last_home_point + 1) - 2;
inline constexpr int far_home = 18;  // the other side's home board starts behind it

/// Eight bytes' highest bits, the first byte's lowest.
POINTWRIGHT_INLINE std::uint32_t high_bits(std::uint64_t bytes) {
  return static_cast<std::uint32_t>(
      (((bytes >> 7U) & 0x0101010101010101ULL) * 0x0102040810204080ULL) >> 56U);
}

/// The places, those off included, that hold more checkers than 127 - `added`. Reads a camp eight
/// places at a time: a count never reaches 128, so no byte carries over.
POINTWRIGHT_INLINE Places places_with_more(const Camp& camp, std::uint64_t added) {
  std::array<std::uint64_t, 4> words{};
  std::memcpy(words.data(), camp.data(), camp.size());
  Places places = 0;
  for (unsigned i = 0; i < words.size(); ++i)
    places |= high_bits(words[i] + added * 0x0101010101010101ULL) << (8 * i);
  return places;
}
POINTWRIGHT_INLINE Places held_places(const Camp& camp) {
  return places_with_more(camp, 127);
}
POINTWRIGHT_INLINE Places places_with_two(const Camp& camp) {
  return places_with_more(camp, 126);
}

/// The same places as the other side counts them: place p becomes 25 - p.
POINTWRIGHT_INLINE Places mirrored(Places places) {
  Places v = places;
  v = ((v >> 1U) & 0x55555555U) | ((v & 0x55555555U) << 1U);
  v = ((v >> 2U) & 0x33333333U) | ((v & 0x33333333U) << 2U);
  v = ((v >> 4U) & 0x0F0F0F0FU) | ((v & 0x0F0F0F0FU) << 4U);
  v = ((v >> 8U) & 0x00FF00FFU) | ((v & 0x00FF00FFU) << 8U);
  v = (v >> 16U) | (v << 16U);
  return v >> 6U;
}

/// One side's checkers as sets.
struct Spread {
  Places any = 0;  ///< places with a checker, the bar included; not those off
  Places two = 0;  ///< places with two or more
};

POINTWRIGHT_INLINE Spread spread_of(const Camp& camp) {
  return {held_places(camp) & ~Places{1}, places_with_two(camp) & ~Places{1}};
}
POINTWRIGHT_INLINE Spread mirrored(const Spread& spread) {
  return {mirrored(spread.any), mirrored(spread.two)};
}

/// The two sides as one of them sees them.
struct Sight {
  Places own = 0;            ///< places with a checker of mine, the bar included
  Places own_points = 0;     ///< points with two or more of mine
  Places blots = 0;          ///< points with one opposing checker
  Places blocked = 0;        ///< points with two or more
  Places their_blocked = 0;  ///< the same as they count them
  int on_bar = 0;
  int rear = 0;        ///< my rearmost place
  int their_rear = 0;  ///< the place of their rearmost checker in MY numbering; 0 when on their bar
};

/// `theirs_mirrored` is `theirs` as I count: place p becomes 25 - p.
POINTWRIGHT_INLINE Sight look(int on_bar, const Spread& mine, const Spread& theirs,
                              const Spread& theirs_mirrored) {
  Sight sight;
  sight.own = mine.any;
  sight.own_points = mine.two & points_mask;
  sight.blocked = theirs_mirrored.two & points_mask;
  sight.blots = theirs_mirrored.any & ~theirs_mirrored.two & points_mask;
  sight.their_blocked = theirs.two & points_mask;
  sight.on_bar = on_bar;
  sight.rear = mine.any == 0 ? 0 : static_cast<int>(std::bit_width(mine.any)) - 1;
  sight.their_rear =
      theirs.any == 0 ? bar_place : bar_place + 1 - static_cast<int>(std::bit_width(theirs.any));
  return sight;
}

/// Whether a hit is possible at all.
POINTWRIGHT_INLINE bool can_hit(const Sight& sight) {
  return sight.blots != 0 && sight.their_rear <= sight.rear;
}

/// Sums over the checkers of one side, and its shots.
struct Sums {
  int pips = 0;
  int spare = 0;    ///< pips before home, up to far_home
  int engaged = 0;  ///< checkers behind their rearmost
  int ways = 0;     ///< throws out of 36 that hit
  int lost = 0;     ///< 36 times the mean pips that the other side loses to hits
};

/// For each set of distances 1 to 12 that are open to a checker (bit k - 1 for k pips): the pips
/// that it moves alone, added up over the 36 throws, as far as those distances settle.
extern const std::array<std::int16_t, 4096> mobility_within_12;

/// 36 times the mean pips that the rear checker can move, alone.
POINTWRIGHT_INLINE int rear_mobility(const Sight& sight) {
  if (sight.rear == 0) return measure_units[6];
  // Bit k: whether the place k pips on is open; beyond the edge all are.
  const Places blocked = sight.their_blocked >> static_cast<unsigned>(bar_place - sight.rear);
  const Places open = ~(blocked & (bit(sight.rear) - 1));
  // Beyond twelve pips only the later steps of 4-4, 5-5 and 6-6 are left.
  const Places fours = (open >> 4U) & (open >> 8U) & (open >> 12U) & (open >> 16U) & 1U;
  const Places fives = (open >> 5U) & (open >> 10U) & (open >> 15U) & 1U;
  const Places sixes = (open >> 6U) & (open >> 12U) & (open >> 18U) & 1U;
  return mobility_within_12[(open >> 1U) & 4095U] +
         static_cast<int>(4 * fours + 5 * (fives + (fives & (open >> 20U))) +
                          6 * (sixes + (sixes & (open >> 24U))));
}

/// The longest run of places that lie in `points`, but at most six; without a loop, whose length
/// the processor would guess wrongly.
POINTWRIGHT_INLINE int run_up_to_six(Places points) {
  const Places two = points & (points >> 1U);
  const Places three = two & (points >> 2U);
  const Places four = two & (two >> 2U);
  const Places five = four & (points >> 4U);
  const Places six = four & (two >> 4U);
  return (points != 0 ? 1 : 0) + (two != 0 ? 1 : 0) + (three != 0 ? 1 : 0) + (four != 0 ? 1 : 0) +
         (five != 0 ? 1 : 0) + (six != 0 ? 1 : 0);
}

/// The measures of one side in their order: see `measure`.
POINTWRIGHT_INLINE void write_side(const Sight& sight, const Sums& sums, std::int16_t* out) {
  const int blots = std::popcount(sight.own & ~sight.own_points & points_mask);
  const int closed = std::popcount(sight.own_points & home_mask);
  const Places in_front = sight.own_points & ~(bit(sight.their_rear + 1) - 1);
  const Places near =
      in_front &
      static_cast<Places>((std::uint64_t{1} << static_cast<unsigned>(sight.their_rear + 13)) - 1);
  const Places anchors = sight.own_points & ~(bit(far_home + 1) - 1);
  // Where there is no anchor, the bar's place stands for it.
  const int foremost = std::countr_zero(anchors | bar_bit);

  const auto count = [](int value) { return static_cast<std::int16_t>(value); };
  out[0] = count(sums.pips);
  out[1] = count(sums.ways);
  out[2] = count(sums.lost);
  out[3] = count(closed * closed);
  out[4] = count(run_up_to_six(in_front));
  out[5] = count(std::popcount(near));
  out[6] = count(rear_mobility(sight));
  out[7] = count(blots);
  out[8] = count(sums.engaged);
  out[9] = count(sums.spare);
  out[10] = count(bar_place - foremost);
  const int depth = sight.rear - sight.their_rear;
  out[11] = count(depth > 0 ? depth : 0);
}

}  // namespace pointwright::judge

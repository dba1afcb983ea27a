#include "judge/features.hpp"

#include <algorithm>
#include <bit>
#include <cstring>

#include "rules/roll.hpp"

namespace pointwright::judge {
namespace {

/// A set of places in one side's own numbering: bit p stands for place p.
using Places = std::uint32_t;

constexpr Places bit(int place) {
  return Places{1} << static_cast<unsigned>(place);
}
constexpr Places bar_bit = bit(bar_place);
constexpr Places points_mask = bar_bit - 2;  // 1 to 24
constexpr Places home_mask = bit(last_home_point + 1) - 2;
constexpr int far_home = 18;  // the other side's home board starts behind it

/// One side's checkers as sets, and sums over them.
struct Spread {
  Places any = 0;  ///< places with a checker, the bar included; not those off
  Places two = 0;  ///< places with two or more
};

/// Eight bytes' highest bits, the first byte's lowest.
std::uint32_t high_bits(std::uint64_t bytes) {
  return static_cast<std::uint32_t>(
      (((bytes >> 7U) & 0x0101010101010101ULL) * 0x0102040810204080ULL) >> 56U);
}

/// Reads a camp eight places at a time: a count never reaches 128, so no byte carries over.
Spread spread_of(const Camp& camp) {
  std::array<std::uint64_t, 4> words{};
  std::memcpy(words.data(), camp.data(), camp.size());
  Spread spread;
  for (unsigned i = 0; i < words.size(); ++i) {
    spread.any |= high_bits(words[i] + 0x7F7F7F7F7F7F7F7FULL) << (8 * i);
    spread.two |= high_bits(words[i] + 0x7E7E7E7E7E7E7E7EULL) << (8 * i);
  }
  spread.any &= ~Places{1};
  spread.two &= ~Places{1};
  return spread;
}

/// The same places as the other side counts them: place p becomes 25 - p.
Places mirrored(Places places) {
  Places v = places;
  v = ((v >> 1U) & 0x55555555U) | ((v & 0x55555555U) << 1U);
  v = ((v >> 2U) & 0x33333333U) | ((v & 0x33333333U) << 2U);
  v = ((v >> 4U) & 0x0F0F0F0FU) | ((v & 0x0F0F0F0FU) << 4U);
  v = ((v >> 8U) & 0x00FF00FFU) | ((v & 0x00FF00FFU) << 8U);
  v = (v >> 16U) | (v << 16U);
  return v >> 6U;
}

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

Sight look(const Camp& camp, const Spread& mine, const Spread& theirs) {
  Sight sight;
  sight.own = mine.any;
  sight.own_points = mine.two & points_mask;
  sight.blocked = mirrored(theirs.two) & points_mask;
  sight.blots = mirrored(theirs.any & ~theirs.two) & points_mask;
  sight.on_bar = camp[bar_place];
  sight.rear = mine.any == 0 ? 0 : static_cast<int>(std::bit_width(mine.any)) - 1;
  sight.their_rear =
      theirs.any == 0 ? bar_place : bar_place + 1 - static_cast<int>(std::bit_width(theirs.any));
  return sight;
}

Places step(Places from, int die, Places blocked) {
  return (from >> static_cast<unsigned>(die)) & points_mask & ~blocked;
}

/// Where the checkers of one side can be hit by a roll of the other, other obligations aside.
class Shots {
 public:
  explicit Shots(const Sight& sight) : sight_(sight) {
    const Places from = sight.on_bar == 0 ? sight.own : bar_bit;
    for (int die = 1; die <= 6; ++die)
      by_die_[static_cast<std::size_t>(die)] = step(from, die, sight.blocked);
  }

  [[nodiscard]] Places by_double(int die) const {
    Places reached = by_die_[static_cast<std::size_t>(die)];
    if (sight_.on_bar > 0) {
      if (reached == 0) return 0;
      Places all = reached;
      reached |= sight_.own & ~bar_bit;
      for (int i = sight_.on_bar; i < 4; ++i) {
        reached = step(reached, die, sight_.blocked);
        all |= reached;
      }
      return all & sight_.blots;
    }
    Places all = reached;
    for (int i = 1; i < 4; ++i) {
      reached = step(reached, die, sight_.blocked);
      all |= reached;
    }
    return all & sight_.blots;
  }

  [[nodiscard]] Places by_two(int a, int b) const {
    const Places by_a = by_die_[static_cast<std::size_t>(a)];
    const Places by_b = by_die_[static_cast<std::size_t>(b)];
    Places all = by_a | by_b;
    if (sight_.on_bar == 0) {
      all |= step(by_a, b, 0) | step(by_b, a, 0);
    } else if (sight_.on_bar == 1) {
      const Places rest = sight_.own & ~bar_bit;
      if (by_a != 0) all |= step(rest | by_a, b, 0);
      if (by_b != 0) all |= step(rest | by_b, a, 0);
    }
    return all & sight_.blots;
  }

 private:
  const Sight& sight_;
  std::array<Places, 7> by_die_{};
};

/// Throws out of 36 that hit, and 36 times the mean pips that the other side loses.
void count_shots(const Sight& sight, std::int16_t& ways, std::int16_t& pips) {
  ways = 0;
  pips = 0;
  if (sight.blots == 0 || sight.their_rear > sight.rear) return;
  const Shots shots(sight);
  int hitting = 0;
  int lost = 0;
  const auto add = [&](Places hit, int throws) {
    hitting += hit != 0 ? throws : 0;
    // A checker hit on my point p had p pips behind it.
    lost += throws * std::max(0, static_cast<int>(std::bit_width(hit)) - 1);
  };
  for (int a = 1; a <= 6; ++a) {
    add(shots.by_double(a), 1);
    for (int b = 1; b < a; ++b) add(shots.by_two(a, b), 2);
  }
  ways = static_cast<std::int16_t>(hitting);
  pips = static_cast<std::int16_t>(lost);
}

/// For each set of distances 1 to 11 that are open to a checker (bit k - 1 for k pips): the pips
/// that it moves alone, added up over the 30 throws that are no doubles.
constexpr std::size_t distance_sets = std::size_t{1} << 11U;
constexpr std::array<std::int16_t, distance_sets> pips_without_doubles() {
  std::array<std::int16_t, distance_sets> table{};
  for (std::size_t set = 0; set < distance_sets; ++set) {
    const auto open = [&](int pips) {
      return ((set >> static_cast<unsigned>(pips - 1)) & 1U) != 0;
    };
    int total = 0;
    for (int a = 2; a <= 6; ++a) {
      for (int b = 1; b < a; ++b) {
        const bool either = open(a) || open(b);
        const int one = open(a) ? a : (open(b) ? b : 0);
        total += 2 * (either && open(a + b) ? a + b : one);
      }
    }
    table[set] = static_cast<std::int16_t>(total);
  }
  return table;
}
constexpr auto mobility_without_doubles = pips_without_doubles();

/// 36 times the mean pips that the rear checker can move, alone.
int rear_mobility(const Sight& sight) {
  if (sight.rear == 0) return measure_units[6];
  // Bit k: whether the place k pips on is blocked; beyond the edge nothing is.
  const auto rear = static_cast<unsigned>(sight.rear);
  const Places blocked = mirrored(sight.blocked) >> (bar_place - rear);
  const Places open = ~(blocked & (bit(sight.rear) - 1));
  int total = mobility_without_doubles[(open >> 1U) & (distance_sets - 1)];
  for (int a = 1; a <= 6; ++a) {
    int moved = 0;
    while (moved < 4 * a && ((open >> static_cast<unsigned>(moved + a)) & 1U) != 0) moved += a;
    total += moved;
  }
  return total;
}

/// The longest run of points that lie in `points`.
int longest_run(Places points) {
  int run = 0;
  for (; points != 0; ++run) points &= points >> 1U;
  return run;
}

void count_side(const Camp& mine, const Sight& sight, std::int16_t* out) {
  int pips = 0;
  int spare = 0;
  int engaged = 0;
  for (int place = 1; place <= bar_place; ++place) {
    const int count = mine[static_cast<std::size_t>(place)];
    pips += place * count;
    spare += place > last_home_point && place <= far_home ? (place - last_home_point) * count : 0;
    engaged += place > sight.their_rear ? count : 0;
  }
  const int blots = std::popcount(sight.own & ~sight.own_points & points_mask);
  const int closed = std::popcount(sight.own_points & home_mask);
  const Places in_front = sight.own_points & ~(bit(sight.their_rear + 1) - 1);
  const Places near =
      in_front & (sight.their_rear + 13 >= 25 ? points_mask : bit(sight.their_rear + 13) - 1);
  const Places anchors = sight.own_points & ~(bit(far_home + 1) - 1);
  const int foremost = anchors == 0 ? bar_place : std::countr_zero(anchors);

  const auto count = [](int value) { return static_cast<std::int16_t>(value); };
  out[0] = count(pips);
  count_shots(sight, out[1], out[2]);
  out[3] = count(closed * closed);
  out[4] = count(std::min(longest_run(in_front), 6));
  out[5] = count(std::popcount(near));
  out[6] = count(rear_mobility(sight));
  out[7] = count(blots);
  out[8] = count(engaged);
  out[9] = count(spare);
  out[10] = count(bar_place - foremost);
  out[11] = count(std::max(0, sight.rear - sight.their_rear));
}

}  // namespace

void count_measures(const Board& board, Side on_roll, Counts& counts) {
  const Camp& mine = board.of(on_roll);
  const Camp& theirs = board.of(opponent(on_roll));
  const Spread my_spread = spread_of(mine);
  const Spread their_spread = spread_of(theirs);
  count_side(mine, look(mine, my_spread, their_spread), counts.data());
  count_side(theirs, look(theirs, their_spread, my_spread), counts.data() + measures_per_side);
}

void measure(const Board& board, Side on_roll, Measures& measures) {
  Counts counts;
  count_measures(board, on_roll, counts);
  for (std::size_t i = 0; i < measures.size(); ++i)
    measures[i] =
        static_cast<float>(counts[i]) / static_cast<float>(measure_units[i % measures_per_side]);
}

}  // namespace pointwright::judge

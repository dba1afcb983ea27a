#pragma once

#include <algorithm>
#include <array>
#include <bit>

#include "judge/sight.hpp"

/// The throws that hit, counted throw by throw or blot by blot with ordinary instructions; inlined
/// as sight.hpp is.
namespace pointwright::judge {

POINTWRIGHT_INLINE Places step(Places from, int die, Places blocked) {
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

/// Throw by throw: for a side that has checkers on the bar.
POINTWRIGHT_INLINE void count_by_throws(const Sight& sight, Sums& sums) {
  const Shots shots(sight);
  const auto add = [&](Places hit, int throws) {
    sums.ways += hit != 0 ? throws : 0;
    // A checker hit on my point p had p pips behind it.
    sums.lost += throws * std::max(0, static_cast<int>(std::bit_width(hit)) - 1);
  };
  for (int a = 1; a <= 6; ++a) {
    add(shots.by_double(a), 1);
    for (int b = 1; b < a; ++b) add(shots.by_two(a, b), 2);
  }
}

// A side with nobody on the bar is counted blot by blot, by tables of what the places behind a blot
// bring: bit k - 1 of an index stands for the place k pips behind it.

/// Sets of the 15 throws that are no doubles, and of the six doubles.
using Throws = std::uint32_t;

/// Calls `each(bit, a, b)` for the throws that are no doubles.
template <class Each>
constexpr void for_throws(const Each& each) {
  Throws bit = 1;
  for (int a = 2; a <= 6; ++a) {
    for (int b = 1; b < a; ++b, bit <<= 1U) each(bit, a, b);
  }
}

/// Whether the place so many pips behind is in the set.
constexpr bool holds(std::size_t set, int pips) {
  return ((set >> static_cast<unsigned>(pips - 1)) & 1U) != 0;
}

/// The throws of which one die alone hits from those places.
inline constexpr std::array<std::uint16_t, 64> direct_throws = [] {
  std::array<std::uint16_t, 64> table{};
  for (std::size_t from = 0; from < table.size(); ++from) {
    for_throws([&](Throws bit, int a, int b) {
      if (holds(from, a) || holds(from, b)) table[from] |= static_cast<std::uint16_t>(bit);
    });
  }
  return table;
}();

/// The throws whose sum, from 3 to 11, leads from those places, the nearest one at bit 0.
inline constexpr std::array<std::uint16_t, 512> combined_throws = [] {
  std::array<std::uint16_t, 512> table{};
  for (std::size_t from = 0; from < table.size(); ++from) {
    for_throws([&](Throws bit, int a, int b) {
      if (holds(from, a + b - 2)) table[from] |= static_cast<std::uint16_t>(bit);
    });
  }
  return table;
}();

/// For each chunk of six places: bit 6 (n - 1) + d - 1 where n steps of the double d lead from one
/// of them.
inline constexpr std::array<std::array<Throws, 64>, 4> double_steps = [] {
  std::array<std::array<Throws, 64>, 4> table{};
  for (unsigned chunk = 0; chunk < 4; ++chunk) {
    for (std::size_t from = 0; from < 64; ++from) {
      for (unsigned d = 1; d <= 6; ++d) {
        for (unsigned n = 1; n <= 4; ++n) {
          const unsigned pips = n * d;
          if (pips > 6 * chunk && pips <= 6 * chunk + 6 &&
              holds(from, static_cast<int>(pips - 6 * chunk)))
            table[chunk][from] |= Throws{1} << (6 * (n - 1) + d - 1);
        }
      }
    }
  }
  return table;
}();

/// Six places, or six throws.
inline constexpr Throws six = 63;

/// The doubles that hit a blot from places behind it, if those in between that are not `open` stop
/// them.
POINTWRIGHT_INLINE Throws doubles_from(Places behind, Places open) {
  const Throws from = double_steps[0][behind & six] | double_steps[1][(behind >> 6U) & six] |
                      double_steps[2][(behind >> 12U) & six] |
                      double_steps[3][(behind >> 18U) & six];
  const Throws free = double_steps[0][open & six] | double_steps[1][(open >> 6U) & six] |
                      double_steps[2][(open >> 12U) & six];
  // The second step needs the place of the first open, and so on.
  const Throws two = free & six;
  const Throws three = two & (free >> 6U);
  const Throws four = three & (free >> 12U);
  const Throws hits = from & (six | (two << 6U) | (three << 12U) | (four << 18U));
  return (hits | (hits >> 6U) | (hits >> 12U) | (hits >> 18U)) & six;
}

/// The throws that hit a blot and are no doubles.
POINTWRIGHT_INLINE Throws others_from(Places behind, Places open) {
  return direct_throws[behind & six] |
         (combined_throws[(behind >> 2U) & 511U] & direct_throws[open & six]);
}

POINTWRIGHT_INLINE void count_by_blots(const Sight& sight, Sums& sums) {
  Throws others = 0;
  Throws doubles = 0;
  // The farthest first: a throw that hits several is taken to hit the one that loses most.
  for (Places left = sight.blots; left != 0;) {
    const int blot = static_cast<int>(std::bit_width(left)) - 1;
    left &= bit(blot) - 1;
    const Places behind = sight.own >> static_cast<unsigned>(blot + 1);
    const Places open = ~(sight.blocked >> static_cast<unsigned>(blot + 1));
    const Throws new_others = others_from(behind, open) & ~others;
    const Throws new_doubles = doubles_from(behind, open) & ~doubles;
    others |= new_others;
    doubles |= new_doubles;
    const int ways = 2 * std::popcount(new_others) + std::popcount(new_doubles);
    sums.ways += ways;
    // A checker hit on my point p had p pips behind it.
    sums.lost += ways * blot;
  }
}

/// Counts the throws of one side that hit, and the pips that they cost, into `ways` and `lost`.
/// Obligations other than that of entering first are left aside.
POINTWRIGHT_INLINE void count_shots(const Sight& sight, Sums& sums) {
  if (!can_hit(sight)) return;
  if (sight.on_bar > 0)
    count_by_throws(sight, sums);
  else
    count_by_blots(sight, sums);
}

}  // namespace pointwright::judge

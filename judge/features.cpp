#include "judge/features.hpp"

#include "judge/counting.hpp"
#include "judge/kernels.hpp"

namespace pointwright::judge {
namespace {

/// The pips that a checker moves alone, added up over the 30 throws that are no doubles; bit k - 1
/// of `open` for a distance of k pips.
constexpr int pips_without_doubles(std::size_t open) {
  const auto is_open = [&](int pips) {
    return ((open >> static_cast<unsigned>(pips - 1)) & 1U) != 0;
  };
  int total = 0;
  for (int a = 2; a <= 6; ++a) {
    for (int b = 1; b < a; ++b) {
      const bool either = is_open(a) || is_open(b);
      const int one = is_open(a) ? a : (is_open(b) ? b : 0);
      total += 2 * (either && is_open(a + b) ? a + b : one);
    }
  }
  return total;
}

/// The same over the six doubles, steps beyond twelve pips left out.
constexpr int pips_of_doubles(std::size_t open) {
  int total = 0;
  for (int a = 1; a <= 6; ++a) {
    for (int to = a; to <= 12 && to <= 4 * a; to += a) {
      if (((open >> static_cast<unsigned>(to - 1)) & 1U) == 0) break;
      total += a;
    }
  }
  return total;
}

// Apart, since a compiler follows only so many steps for one constant.
constexpr std::array<std::int16_t, 2048> mobility_without_doubles = [] {
  std::array<std::int16_t, 2048> table{};
  for (std::size_t open = 0; open < table.size(); ++open)
    table[open] = static_cast<std::int16_t>(pips_without_doubles(open));
  return table;
}();

}  // namespace

constexpr std::array<std::int16_t, 4096> mobility_within_12 = [] {
  std::array<std::int16_t, 4096> table{};
  for (std::size_t open = 0; open < table.size(); ++open)
    table[open] =
        static_cast<std::int16_t>(mobility_without_doubles[open & 2047U] + pips_of_doubles(open));
  return table;
}();

void count_measures_plainly(const Board& board, Side on_roll, Counts& counts) {
  count_sides(board, on_roll, counts);
}

void count_measures(const Board& board, Side on_roll, Counts& counts) {
  best_kernels().count(board, on_roll, counts);
}

void measure(const Board& board, Side on_roll, Measures& measures) {
  Counts counts;
  count_measures(board, on_roll, counts);
  measures = in_units(counts);
}

Measures in_units(const Counts& counts) {
  Measures measures;
  for (std::size_t i = 0; i < measures.size(); ++i)
    measures[i] =
        static_cast<float>(counts[i]) / static_cast<float>(measure_units[i % measures_per_side]);
  return measures;
}

}  // namespace pointwright::judge

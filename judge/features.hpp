#pragma once

#include <array>
#include <cstdint>

#include "rules/board.hpp"

namespace pointwright::judge {

/// Measures that a player would name, for both sides: first the side on roll, then the other.
inline constexpr int measures_per_side = 12;
inline constexpr int measure_count = 2 * measures_per_side;
using Measures = std::array<float, measure_count>;

/// The same as whole numbers: a measure is its count over its unit.
using Counts = std::array<std::int16_t, measure_count>;
inline constexpr std::array<std::int16_t, measures_per_side> measure_units{
    150, 36, 36 * 12, 36, 6, 6, 36 * 8, 5, 15, 60, 6, 24};

/// Each measure is scaled to lie near 0 to 1. In order, for each side:
/// pips; chance of hitting, were it to roll; pips that the other side loses to hits on average;
/// chance that a checker of the other side on the bar stays there; longest prime in front of the
/// other side's rear checker; points held within twelve pips in front of it; pips that its own rear
/// checker moves on average; blots; checkers that still have an opposing one in front; pips to
/// spare before home points must break; foremost anchor; depth of contact.
void measure(const Board& board, Side on_roll, Measures& measures);
/// Counts as measures.
Measures in_units(const Counts& counts);

/// The measures as counts.
void count_measures(const Board& board, Side on_roll, Counts& counts);

}  // namespace pointwright::judge

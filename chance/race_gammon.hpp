#pragma once

#include <cstddef>
#include <optional>

#include "chance/race.hpp"
#include "rules/board.hpp"

namespace pointwright {

/// The chance that a race ends in a gammon: that `leader` is off before the other side, which has
/// all fifteen checkers left, has borne off one.
struct GammonAnswer {
  double chance = 0;
  Certainty known;
  std::size_t positions = 0;  ///< how many pairs were solved for an exact answer
};

/// Most pairs of positions that an exact gammon chance may take.
inline constexpr std::size_t most_gammon_pairs = 50'000;

/// Gammon chance with `on_roll` to roll, the leader playing for the gammon and the other side to
/// save it. Exact, by solving every pair that can come up, unless there are more than `most_pairs`;
/// then both sides play for their own mean. Nothing unless this is a race in which exactly one side
/// has all its checkers left, and both are inside a one-sided table.
std::optional<GammonAnswer> gammon_chance(const Board& board, Side leader, Side on_roll,
                                          std::size_t most_pairs = most_gammon_pairs);

}  // namespace pointwright

#pragma once

#include <optional>

#include "rules/board.hpp"

namespace pointwright {

/// The side that begins when each side has thrown one die: the higher. Nothing on a tie, when both
/// throw again.
constexpr std::optional<Side> opening_winner(int light_die, int dark_die) {
  if (light_die == dark_die) return std::nullopt;
  return light_die > dark_die ? Side::light : Side::dark;
}

}  // namespace pointwright

#pragma once

#include <initializer_list>
#include <utility>

#include "rules/position.hpp"

namespace pointwright {

/// A position from lists of (place, checkers), as each side counts; the rest is borne off.
inline Position sample(std::initializer_list<std::pair<int, int>> light,
                       std::initializer_list<std::pair<int, int>> dark) {
  Position position;
  const auto fill = [&](Side side, const auto& places) {
    int left = checkers_per_side;
    for (const auto& [place, count] : places) {
      position.board.of(side)[static_cast<std::size_t>(place)] = static_cast<std::uint8_t>(count);
      left -= count;
    }
    position.board.of(side)[off_place] = static_cast<std::uint8_t>(left);
  };
  fill(Side::light, light);
  fill(Side::dark, dark);
  return position;
}

/// The set-up of a new game.
inline Position sample_start() {
  return sample({{24, 2}, {13, 5}, {8, 3}, {6, 5}}, {{24, 2}, {13, 5}, {8, 3}, {6, 5}});
}

}  // namespace pointwright

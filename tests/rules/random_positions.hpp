#pragma once

#include <random>

#include "rules/position.hpp"

namespace pointwright::testing {

/// Boards that no game would reach but every rule must cope with: checkers scattered at random,
/// often on the bar, at home or off.
inline Board random_board(std::mt19937_64& random) {
  const auto below = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
  Board board;
  for (const Side side : {Side::light, Side::dark}) {
    const int farthest = below(3) == 0 ? 6 : 24;
    const int in_play = 1 + below(checkers_per_side);
    board.of(side)[off_place] = static_cast<std::uint8_t>(checkers_per_side - in_play);
    for (int i = 0; i < in_play; ++i) {
      auto place = static_cast<Place>(1 + below(farthest));
      const bool taken = board.count(opponent(side), mirrored(place)) != 0;
      if (taken || below(12) == 0) place = bar_place;
      ++board.of(side)[place];
    }
  }
  return board;
}

/// A random position with everything that a position line can say.
inline Position random_position(std::mt19937_64& random) {
  const auto below = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
  Position position;
  position.board = random_board(random);
  if (below(4) != 0) position.turn = below(2) == 0 ? Side::light : Side::dark;
  if (position.turn && below(2) == 0) position.roll = Roll(1 + below(6), 1 + below(6));
  if (below(2) == 0) {
    const int length = 1 + below(25);
    position.match = MatchScore{length, {below(length), below(length)}, false};
    const bool light = position.match->points[0] == length - 1;
    const bool dark = position.match->points[1] == length - 1;
    position.match->crawford = light != dark && below(2) == 0;
  }
  for (const HouseRule& rule : house_rules()) position.house.*rule.member = below(2) == 0;
  if (position.house.cube && !(position.match && position.match->crawford) && below(2) == 0) {
    position.cube.value = std::uint64_t{1} << static_cast<unsigned>(below(61));
    if (position.cube.value > 1 && below(2) == 0)
      position.cube.holder = below(2) == 0 ? Side::light : Side::dark;
  }
  return position;
}

}  // namespace pointwright::testing

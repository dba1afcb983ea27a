#pragma once

#include <array>
#include <cstdint>

#include "judge/levels.hpp"

namespace pointwright::judge {

/// What one game for points without a cube came to.
struct ContestGame {
  double points = 0;    ///< that light won
  double adjusted = 0;  ///< the same, less the luck of every roll as valued at once: the average is
                        ///< the same and the spread smaller
  int turns = 0;
  std::array<Losses, 2> losses{};  ///< what each side's plays cost, valued at once
};

/// Plays a game from the opening roll. The dice depend on `dice` alone.
ContestGame play_game(Opponent& light, Opponent& dark, std::uint64_t dice);

}  // namespace pointwright::judge

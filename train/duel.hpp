#pragma once

#include <cstdint>

#include "judge/evaluator.hpp"

namespace pointwright::train {

/// What games between two sets of nets came to, for points and without a cube.
struct Duel {
  std::uint64_t pairs = 0;  ///< of games with the same dice, the sides exchanged
  double points = 0;        ///< a game, for the first
  double error = 0;         ///< its standard error
};

/// Plays pairs of games, each side choosing at once. The same for the same seed, whatever the
/// number of threads.
Duel play_duel(const judge::Evaluator& first, const judge::Evaluator& second, std::uint64_t pairs,
               std::uint64_t seed, unsigned threads);

}  // namespace pointwright::train

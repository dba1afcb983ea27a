#pragma once

#include <cstdint>
#include <optional>
#include <random>
#include <vector>

#include "judge/evaluator.hpp"

namespace pointwright::train {

/// A position in which a side was on roll.
struct Visit {
  Board board;
  Side on_roll;
};

/// One game from its start until it is over or a table knows the rest.
struct Game {
  std::vector<Visit> visits;
  judge::Evaluation end;  ///< for the side on roll after the last visit
};

struct SelfPlay {
  double strange_starts = 0.15;  ///< share of games whose first plays are made at random
  int most_random_plays = 16;
};

/// Plays a game of the evaluator against itself, from its beginning or from `start`. The game is
/// the same for the same generator state.
void play_game(const judge::Evaluator& evaluator, const SelfPlay& how, std::mt19937_64& random,
               Game& game, const std::optional<Visit>& start = std::nullopt);

}  // namespace pointwright::train

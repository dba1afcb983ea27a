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
  /// For each visit: where the side did not make the play that looked best, what that play would
  /// have left to the other side.
  std::vector<std::optional<judge::Chances>> better;
  Visit last;             ///< where it stopped
  judge::Evaluation end;  ///< what that is worth to the side on roll
};

struct SelfPlay {
  double strange_starts = 0.15;  ///< share of games whose first plays are made at random
  int most_random_plays = 16;
  /// Share of plays that are the best of about half of them, drawn at random: so that plays are met
  /// which look worse than they are.
  double wandering = 0;
};

/// Plays a game of the evaluator against itself, from its beginning or from `start`. The game is
/// the same for the same generator state.
void play_game(const judge::Evaluator& evaluator, const SelfPlay& how, std::mt19937_64& random,
               Game& game, const std::optional<Visit>& start = std::nullopt);

}  // namespace pointwright::train

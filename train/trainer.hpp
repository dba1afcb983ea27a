#pragma once

#include <cstdint>
#include <functional>

#include "judge/evaluator.hpp"

namespace pointwright::train {

/// How the nets are trained.
struct Training {
  std::uint64_t seed = 1;
  unsigned workers = 2;         ///< threads
  std::size_t batch = 1024;     ///< new positions, of all nets, between two steps
  std::size_t reviews = 0;      ///< earlier positions studied again beside each new one
  std::size_t steps = 64;       ///< between two rounds of games
  std::uint64_t rounds = 1000;  ///< of games and steps, at most
  double seconds = 0;           ///< at most; 0: no limit
  float first_rate = 0.003F;    ///< falls to `last_rate`, by the same factor in each round
  float last_rate = 0.00001F;   ///< or, if `seconds` is given, in each second
  bool fall_evenly = false;     ///< instead: by the same amount
  float lambda = 0.5F;          ///< falls to `last_lambda` evenly over the first half
  float last_lambda = 0;
  double wandering = 0;      ///< share of plays that are not the best (SelfPlay)
  double rehearsals = 0.25;  ///< share of games that begin at positions of the rarer kinds
};

/// How far the training is.
struct Report {
  double seconds = 0;
  std::uint64_t rounds = 0;
  std::uint64_t games = 0;
  double gammons = 0;   ///< share of the games
  double rms_step = 0;  ///< root mean square of target - output of the chance to win, of late
  float rate = 0;
  bool last = false;
};

/// Trains the nets by self-play. `heard` is told after each round and once at the end. Without
/// `seconds` the result depends on the nets and the settings alone; with it, also on the clock.
void train(judge::WeightsByPhase& nets, const Training& how,
           const std::function<void(const Report&)>& heard);

}  // namespace pointwright::train

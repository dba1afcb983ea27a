#pragma once

#include <cstdint>
#include <vector>

#include "judge/valuation.hpp"
#include "lesson/claim.hpp"
#include "rules/board.hpp"

/// What claims are proved from that say "rolled out".
namespace pointwright::lesson {

/// The claimed play beside one other, rolled out with the same dice.
struct SampledRival {
  double equity = 0;      ///< of the other play
  double lead = 0;        ///< of the claimed play over it
  double lead_error = 0;  ///< standard error of the lead
};

struct SampledPlays {
  std::uint64_t trials = 0;
  double equity = 0;  ///< of the claimed play
  std::vector<SampledRival> rivals;
};

/// A lead found by a rollout is taken to lie within so many standard errors and this many points of
/// the truth, for trials are cut off and played by nets. A policy: docs/claims-from-search.md.
inline constexpr double sampled_errors = 3;
inline constexpr double sampled_bias = 0.01;

/// Rolls the board after the claimed play out beside those after others (at least one), twelve
/// rolls far, until each lead is clear of `threshold` or 720 trials are done. Remembered.
SampledPlays sampled_plays(const Ask& ask, const judge::Valuation& valuation, const Board& claimed,
                           const std::vector<Board>& others, double threshold);

}  // namespace pointwright::lesson

#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "judge/cube_model.hpp"
#include "judge/rollout.hpp"

/// Holds the model of the cube against rollouts in which the cube is in use: see
/// docs/decisions/cube-model.md.
namespace pointwright::train {

/// A decision about the cube, in a game for points, for light, which is on roll.
struct CubeQuestion {
  Board board;
  judge::CubeSituation situation;
  judge::Chances chances;  ///< of light, one step deep
};

struct CubeCheckOptions {
  std::uint64_t seed = 1;
  std::size_t positions = 60;
  std::uint64_t trials = 360;  ///< a multiple of two blocks
  double near_action = 0.10;   ///< the model sees holding and doubling at most so far apart
  double near_reply = 0.25;    ///< or the take and the drop
};

/// Positions with contact from games of the evaluator against itself, one from a game, in which a
/// decision about the cube is close as the model sees it. Every other one has the cube in the
/// middle, the others with light. The same for the same seed.
std::vector<CubeQuestion> cube_questions(const judge::Evaluator& evaluator,
                                         const CubeCheckOptions& options);

/// What holding and what doubling that is taken are worth by rollouts, with the same dice.
struct CubeAnswers {
  struct Half {
    double hold = 0;
    double take = 0;
  };
  Half all;
  /// By every other block of trials, and by the rest: two judgements that know nothing of each
  /// other.
  std::array<Half, 2> halves;
  double hold_error = 0;
  double take_error = 0;
  double lead_error = 0;  ///< of the difference of the two
};
CubeAnswers roll_out(const judge::Evaluator& evaluator, const CubeQuestion& question,
                     const CubeCheckOptions& options, std::uint64_t number);

/// What the model's two answers to a question cost by the rollouts. Each half of the trials says
/// what is best, and the other what the model's choice is behind it, so chance does not make the
/// model look worse than it is; single costs may be below nought.
struct CubeCost {
  double action = 0;
  double reply = 0;
  bool same_action = false;  ///< as all trials together
  bool same_reply = false;
};
CubeCost cost_of(const CubeQuestion& question, const CubeAnswers& answers, double life);

/// The life with which the model's equities lie nearest to those of the rollouts (least squares),
/// with a standard error that allows for errors of different size.
struct FittedLife {
  double life = 0;
  double error = 0;
  double off = 0;  ///< how far the equities then lie from the rollouts, root mean square
};
enum class CubeWorth : std::uint8_t { hold, take };
FittedLife fitted_life(const std::vector<CubeQuestion>& questions,
                       const std::vector<CubeAnswers>& answers, CubeWorth worth);

}  // namespace pointwright::train

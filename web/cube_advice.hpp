#pragma once

#include <optional>

#include "judge/cube_model.hpp"
#include "judge/evaluator.hpp"
#include "rules/position.hpp"

namespace pointwright::web {

/// What both sides should do about the cube before a roll, and how that is known.
struct CubeAdvice {
  judge::CubeDecision decision;
  /// Chances of the side on roll without the cube.
  judge::Evaluation evaluation;
  /// From the table of both sides with the cube (chance/two_sided.hpp): played for points, both
  /// home, up to six checkers each. Otherwise by the model of the cube.
  bool exact = false;
};

/// The advice for the side whose turn it is. Nothing if the match is over or longer than the
/// standard match table. Precondition: it is somebody's turn.
///
/// The table reckons without beavers, and is exact with them too: where a taken double costs the
/// doubler, waiting costs it less, so that nobody is ever beavered who plays as well as can be.
std::optional<CubeAdvice> advise_cube(const Position& position);

}  // namespace pointwright::web

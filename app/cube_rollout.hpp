#pragma once

#include "app/io.hpp"
#include "app/json.hpp"
#include "app/position_rollout.hpp"
#include "rules/position.hpp"

namespace pointwright::app {

/// Rolls a cube decision out: holding, and doubling that is taken, with the same dice and with the
/// cube in use from then on. Prints what came of it and returns the exit code. Preconditions: those
/// of job_of(), and the position has a cube situation.
int roll_cube_out(const RolloutOptions& options, const Position& position, bool json, Io& io);

/// The same for a line of a batch.
Result<Json, Failure> rolled_cube(const RolloutOptions& options, const Position& position);

}  // namespace pointwright::app

#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/failure.hpp"
#include "app/io.hpp"
#include "app/option_list.hpp"
#include "rollouts/rollout_job.hpp"
#include "rules/position.hpp"

namespace pointwright::app {

/// How a position is to be rolled out, as given on the command line.
struct RolloutOptions {
  std::optional<std::string> rollout;  ///< how many trials; nothing: no rollout
  std::optional<std::string> seed;
  std::optional<std::string> rolls;
  std::optional<std::string> threads;
  std::optional<std::string> error;
  std::optional<std::string> part;
  std::optional<std::string> resume;
  std::vector<std::string> merged;
};

void add_rollout_options(OptionList& list, RolloutOptions& options);

/// Options that only a rollout has use for, or that exclude each other.
std::optional<Failure> misuse(const RolloutOptions& options);

/// Prints what a rollout found; `part` is "2/3" where it is one of several, else empty.
using ReportRollout = std::function<void(const judge::Tally& tally, std::string_view part)>;

/// Does a rollout, or goes on with it, or puts its parts together, and reports what came of it.
/// Ctrl-C ends it early, with the state kept where there is a file for it. `job` says what to roll
/// out; seed, length and trials are those of the options. Returns the exit code. Precondition:
/// `options.rollout` is given.
int roll_out(const RolloutOptions& options, RolloutJob job, bool json, Io& io,
             const ReportRollout& report);

/// Does a whole rollout without files or words, for a line of a batch. Precondition: as for
/// roll_out(), and `options` name no file and no part.
Result<judge::Tally, Failure> rolled_out(const RolloutOptions& options, RolloutJob job);

/// Why such options do not fit a batch: files and parts belong to one rollout; or why no rollout
/// can be made of them.
std::optional<Failure> misuse_in_batch(const RolloutOptions& options);

/// A position as a start of a rollout, with nothing said yet of cubes. Precondition: it has a turn
/// and a valuation, and no winner.
RolloutJob job_of(const Position& position);

}  // namespace pointwright::app

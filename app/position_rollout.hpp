#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/failure.hpp"
#include "app/io.hpp"
#include "app/option_list.hpp"
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

/// Rolls a position out, or goes on with it, or puts its parts together, and prints what it is
/// worth. Ctrl-C ends it early, with the state kept where there is a file for it. Returns the exit
/// code. Preconditions: `options.rollout` is given; the position has a turn, a valuation and no
/// winner.
int roll_out(const RolloutOptions& options, const Position& position, bool json, Io& io);

}  // namespace pointwright::app

#pragma once

#include <string>
#include <vector>

#include "rules/play.hpp"
#include "rules/rulebook.hpp"

namespace pointwright {

/// Why something cannot be done at the table. Whatever was refused has changed nothing.
struct Refusal {
  const Rule* rule = nullptr;  ///< the rule that decides; null for the program's own limit
  std::string proof;           ///< one to three sentences that a learner can check
  /// Of a refused play: legal plays, the nearest first. The braces keep clang from warning where a
  /// refusal without alternatives is written down.
  std::vector<Play> alternatives{};  // NOLINT(readability-redundant-member-init)
};

}  // namespace pointwright

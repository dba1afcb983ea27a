#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "rollouts/rollout_job.hpp"
#include "rules/result.hpp"

namespace pointwright {

/// Why the state of a rollout cannot be used.
struct RolloutFault {
  std::string_view id;  ///< "cannot-read", "not-a-rollout", "rollout-version", "rollout-size",
                        ///< "rollout-damaged"
  std::string reason;   ///< a sentence for people, naming the file
};

/// Writes how far a rollout has come, in one step: the file that was there stays until the new one
/// is whole and on the disk. Returns why it could not, or "".
std::string save(const std::filesystem::path& path, const RolloutProgress& progress);

/// Reads what save() wrote. Every byte is covered by a checksum; bytes too many or too few are
/// refused.
Result<RolloutProgress, RolloutFault> load_rollout(const std::filesystem::path& path);

}  // namespace pointwright

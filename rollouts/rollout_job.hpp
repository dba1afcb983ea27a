#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "judge/rollout.hpp"

namespace pointwright {

/// What a rollout is to do. The same job gives the same numbers, to the last bit, on any number of
/// threads, in one sitting or several, whole or in parts.
struct RolloutJob {
  judge::RolloutSettings settings;
  std::uint64_t nets =
      0;  ///< says which nets play: judge::shipped_nets_hash() for the shipped ones
  std::vector<judge::RolloutStart> starts;
  Side viewer = Side::light;
  std::uint64_t trials = 1296;  ///< rounded up to whole blocks
  std::uint32_t parts = 1;      ///< the job is cut into so many parts

  [[nodiscard]] std::uint64_t blocks() const {
    return (trials + judge::trials_per_block - 1) / judge::trials_per_block;
  }
  /// How many blocks a part has: it takes every `parts`-th one.
  [[nodiscard]] std::uint64_t blocks_of(std::uint32_t part) const {
    return (blocks() + parts - 1 - part) / parts;
  }
};

/// A number that two jobs share only if they are the same in all that changes their results.
std::uint64_t fingerprint(const RolloutJob& job);

/// How far a job has come: for each of its parts the blocks done, in their order.
struct RolloutProgress {
  std::uint64_t job = 0;  ///< fingerprint
  std::vector<std::uint64_t> done;
  judge::Tally tally;

  explicit RolloutProgress(const RolloutJob& of)
      : job(fingerprint(of)), done(of.parts), tally(of.starts.size()) {}
  RolloutProgress() : tally(1) {}
  [[nodiscard]] bool complete(const RolloutJob& of) const;

  friend bool operator==(const RolloutProgress&, const RolloutProgress&) = default;
};

/// Adds what another sitting did. Returns why the two cannot be merged, or "": they belong to
/// different jobs, or both hold work on the same part. Nothing changes if they cannot.
std::string merge(RolloutProgress& progress, const RolloutProgress& other);

/// How a job is run.
struct RolloutRun {
  unsigned threads = 1;
  /// Hears after every few blocks how far it is; returns whether to go on. Empty: always.
  std::function<bool(const RolloutProgress&)> heard{};
  /// Asked at the same places, whatever the number of threads; only for jobs of one part.
  judge::StopRule stop{};
};

/// Works on one part of a job (0, 1 ...), from where `progress` stands. Returns whether the part is
/// done, or the stop rule was met; false if `heard` stopped it.
/// Precondition: `progress` belongs to the job; part < parts.
bool run(const RolloutJob& job, std::uint32_t part, const judge::Evaluator& evaluator,
         const RolloutRun& how, RolloutProgress& progress);

}  // namespace pointwright

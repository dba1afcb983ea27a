#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <string>
#include <thread>
#include <vector>

#include "judge/evaluator.hpp"

namespace pointwright::train {

/// Ends the program with exit code 2 and the reason.
[[noreturn]] void fail(const std::string& reason);

/// The whole of a file, or the end of the program.
std::string read_file(const std::string& path);
/// Writes a file beside itself and then into its place, so that it is never half written.
void write_file(const std::string& path, const std::string& text);

/// The nets of an evaluator, one for each phase: PHASE.net in a folder, or the shipped ones where
/// the folder is empty.
struct Nets {
  judge::WeightsByPhase by_phase;

  explicit Nets(const std::string& folder);
  [[nodiscard]] const judge::Weights& of(judge::Phase phase) const {
    return by_phase[static_cast<std::size_t>(phase)];
  }
  /// Says which nets they are, by the fingerprints of their bytes.
  [[nodiscard]] std::string text() const;
};

/// PHASE.net in a folder.
std::string net_path(const std::string& folder, judge::Phase phase);

/// A net read from a file, or the end of the program.
judge::Weights load_net(const std::string& path);
void save_net(const std::string& path, const judge::Weights& weights);

/// Does `work` for 0 ... count-1 on some threads, in any order.
template <class Work>
void in_parallel(unsigned threads, std::size_t count, const Work& work) {
  std::atomic<std::size_t> next{0};
  std::vector<std::thread> crew;
  for (unsigned k = 0; k < std::max(1U, threads); ++k) {
    crew.emplace_back([&] {
      for (std::size_t i = next++; i < count; i = next++) work(i);
    });
  }
  for (std::thread& thread : crew) thread.join();
}

}  // namespace pointwright::train

#pragma once

#include <cstddef>
#include <span>

#include "judge/net.hpp"
#include "train/gradient.hpp"

namespace pointwright::train {

/// Changes the weights of one net by the gradients of batches, each weight at a pace of its own:
/// D. P. Kingma and J. Ba, "Adam: a method for stochastic optimization", algorithm 1 (ICLR 2015),
/// with its constants 0.9 and 0.999.
class Adam {
 public:
  explicit Adam(int hidden) : mean_(hidden), square_(hidden) {}

  /// The `part`-th of `parts` slices of the weights steps by the mean over all positions of the
  /// gradients. Threads may do the parts at once. `step` counts from 1. Without positions nothing
  /// changes. The order of adding, and so the result, does not depend on the threads.
  void step(judge::Weights& weights, std::span<const Gradient> gradients, float rate, long step,
            std::size_t part, std::size_t parts);

 private:
  judge::Weights mean_;
  judge::Weights square_;
};

}  // namespace pointwright::train

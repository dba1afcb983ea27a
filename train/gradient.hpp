#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "judge/net.hpp"

namespace pointwright::train {

/// The matrices of a net, to go through them all.
inline constexpr std::array matrices{&judge::Weights::first,  &judge::Weights::first_bias,
                                     &judge::Weights::second, &judge::Weights::second_bias,
                                     &judge::Weights::third,  &judge::Weights::third_bias};

/// Sums, over positions, of the way in which a net's weights would have to change for its five
/// chances to come nearer to their targets: the descent of the cross-entropy (for which the slope
/// at the outputs is target - output). One for each thread.
class Gradient {
 public:
  explicit Gradient(int hidden) : sums_(hidden) {}

  void clear();
  /// Adds one position. Returns the squared error of the net's chance to win.
  float add(const judge::Weights& weights, const Board& board, Side on_roll,
            const judge::Chances& target);

  [[nodiscard]] const judge::Weights& sums() const { return sums_; }
  [[nodiscard]] std::size_t positions() const { return positions_; }

 private:
  struct Input {
    std::size_t index;
    float value;
  };
  void list_inputs(const Board& board, Side on_roll);

  judge::Weights sums_;
  std::size_t positions_ = 0;
  std::vector<Input> inputs_;
  std::vector<float> hidden_;
  std::vector<float> hidden_error_;
};

/// Small random weights, the same for the same seed.
judge::Weights random_weights(int hidden, unsigned seed);

}  // namespace pointwright::train

#pragma once

#include <vector>

#include "judge/net.hpp"

namespace pointwright::train {

/// Fits one net to targets, one position at a time, by stochastic gradient descent on the
/// cross-entropy of its five chances (for which the gradient at the outputs is target - output).
class Learner {
 public:
  explicit Learner(judge::Weights weights) : weights_(std::move(weights)) {}

  [[nodiscard]] const judge::Weights& weights() const { return weights_; }
  [[nodiscard]] judge::Weights& weights() { return weights_; }

  /// Moves the net towards `target` for the side on roll. Returns the squared error of the win
  /// chance before the move.
  float learn(const Board& board, Side on_roll, const judge::Chances& target, float rate);

 private:
  struct Input {
    std::size_t index;
    float value;
  };
  void list_inputs(const Board& board, Side on_roll);

  judge::Weights weights_;
  std::vector<Input> inputs_;
  std::vector<float> hidden_;
  std::vector<float> hidden_error_;
};

/// Small random weights, the same for the same seed.
judge::Weights random_weights(int hidden, unsigned seed);

}  // namespace pointwright::train

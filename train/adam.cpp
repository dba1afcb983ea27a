#include "train/adam.hpp"

#include <cmath>

namespace pointwright::train {
namespace {

constexpr float mean_decay = 0.9F;
constexpr float square_decay = 0.999F;
constexpr float least = 1e-8F;

}  // namespace

void Adam::step(judge::Weights& weights, std::span<const Gradient> gradients, float rate, long step,
                std::size_t part, std::size_t parts) {
  std::size_t positions = 0;
  for (const Gradient& gradient : gradients) positions += gradient.positions();
  if (positions == 0) return;
  const float share = 1.0F / static_cast<float>(positions);
  const auto steps = static_cast<float>(step);
  const float mean_scale = 1.0F / (1.0F - std::pow(mean_decay, steps));
  const float square_scale = 1.0F / (1.0F - std::pow(square_decay, steps));
  for (const auto matrix : matrices) {
    std::vector<float>& values = weights.*matrix;
    std::vector<float>& mean = mean_.*matrix;
    std::vector<float>& square = square_.*matrix;
    const std::size_t begin = values.size() * part / parts;
    const std::size_t end = values.size() * (part + 1) / parts;
    for (std::size_t i = begin; i < end; ++i) {
      float sum = 0;
      for (const Gradient& gradient : gradients) sum += (gradient.sums().*matrix)[i];
      const float slope = sum * share;
      mean[i] = mean_decay * mean[i] + (1 - mean_decay) * slope;
      square[i] = square_decay * square[i] + (1 - square_decay) * slope * slope;
      values[i] += rate * mean[i] * mean_scale / (std::sqrt(square[i] * square_scale) + least);
    }
  }
}

}  // namespace pointwright::train

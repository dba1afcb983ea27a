#include "train/gradient.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <random>

namespace pointwright::train {

using judge::input_count;
using judge::measure_count;
using judge::output_count;
using judge::places_per_side;
using judge::second_layer;
using judge::unit_count;
using judge::units_per_place;

void Gradient::list_inputs(const Board& board, Side on_roll) {
  inputs_.clear();
  for (std::size_t side = 0; side < 2; ++side) {
    const Camp& camp = board.of(side == 0 ? on_roll : opponent(on_roll));
    for (std::size_t place = 0; place < places_per_side; ++place) {
      if (camp[place] == 0) continue;
      const auto parts = judge::units(static_cast<int>(place), camp[place]);
      for (std::size_t unit = 0; unit < units_per_place; ++unit) {
        if (parts[unit] != 0)
          inputs_.push_back(
              {(side * places_per_side + place) * units_per_place + unit, parts[unit]});
      }
    }
  }
  judge::Measures measures;
  judge::measure(board, on_roll, measures);
  for (std::size_t m = 0; m < measure_count; ++m) {
    if (measures[m] != 0) inputs_.push_back({unit_count + m, measures[m]});
  }
}

void Gradient::clear() {
  for (const auto matrix : matrices)
    std::fill((sums_.*matrix).begin(), (sums_.*matrix).end(), 0.0F);
  positions_ = 0;
}

float Gradient::add(const judge::Weights& w, const Board& board, Side on_roll,
                    const judge::Chances& target) {
  const auto width = static_cast<std::size_t>(w.hidden);
  list_inputs(board, on_roll);

  hidden_ = w.first_bias;
  for (const Input& input : inputs_) {
    const float* row = &w.first[input.index * width];
    for (std::size_t i = 0; i < width; ++i) hidden_[i] += input.value * row[i];
  }
  std::array<float, second_layer> second{};
  std::copy(w.second_bias.begin(), w.second_bias.end(), second.begin());
  for (std::size_t i = 0; i < width; ++i) {
    if (hidden_[i] <= 0) continue;
    const float* row = &w.second[i * second_layer];
    for (std::size_t j = 0; j < second_layer; ++j) second[j] += hidden_[i] * row[j];
  }
  std::array<float, output_count> out{};
  std::copy(w.third_bias.begin(), w.third_bias.end(), out.begin());
  for (std::size_t j = 0; j < second_layer; ++j) {
    if (second[j] <= 0) continue;
    for (std::size_t k = 0; k < output_count; ++k)
      out[k] += second[j] * w.third[j * output_count + k];
  }

  const std::array<float, output_count> wanted{target.win, target.win_gammon, target.win_backgammon,
                                               target.lose_gammon, target.lose_backgammon};
  std::array<float, output_count> error{};
  for (std::size_t k = 0; k < output_count; ++k)
    error[k] = wanted[k] - 1.0F / (1.0F + std::exp(-out[k]));

  std::array<float, second_layer> second_error{};
  for (std::size_t j = 0; j < second_layer; ++j) {
    if (second[j] <= 0) continue;
    for (std::size_t k = 0; k < output_count; ++k) {
      second_error[j] += error[k] * w.third[j * output_count + k];
      sums_.third[j * output_count + k] += error[k] * second[j];
    }
  }
  for (std::size_t k = 0; k < output_count; ++k) sums_.third_bias[k] += error[k];

  hidden_error_.assign(width, 0.0F);
  for (std::size_t i = 0; i < width; ++i) {
    if (hidden_[i] <= 0) continue;
    const float* row = &w.second[i * second_layer];
    float* row_sums = &sums_.second[i * second_layer];
    float sum = 0;
    for (std::size_t j = 0; j < second_layer; ++j) sum += second_error[j] * row[j];
    for (std::size_t j = 0; j < second_layer; ++j) row_sums[j] += hidden_[i] * second_error[j];
    hidden_error_[i] = sum;
  }
  for (std::size_t j = 0; j < second_layer; ++j) sums_.second_bias[j] += second_error[j];
  for (std::size_t i = 0; i < width; ++i) sums_.first_bias[i] += hidden_error_[i];
  for (const Input& input : inputs_) {
    float* row = &sums_.first[input.index * width];
    for (std::size_t i = 0; i < width; ++i) row[i] += input.value * hidden_error_[i];
  }
  ++positions_;
  return error[0] * error[0];
}

judge::Weights random_weights(int hidden, unsigned seed) {
  judge::Weights weights(hidden);
  std::mt19937 random(seed);
  const auto fill = [&](std::vector<float>& values, float size) {
    for (float& value : values)
      value = size * (static_cast<float>(random()) / 2147483648.0F - 1.0F);
  };
  fill(weights.first, 0.15F);
  fill(weights.second, 1.0F / std::sqrt(static_cast<float>(hidden)));
  fill(weights.third, 0.2F);
  return weights;
}

}  // namespace pointwright::train

#include "judge/net.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>

namespace pointwright::judge {
namespace {

constexpr int widest_hidden = 512;

float logistic(float x) {
  return 1.0F / (1.0F + std::exp(-x));
}

}  // namespace

std::array<float, units_per_place> units(int place, int count) {
  const auto n = static_cast<float>(count);
  if (place == off_place)
    return {count >= 1 ? 1.0F : 0.0F, std::min(n, 5.0F) / 5, std::clamp(n - 5, 0.0F, 5.0F) / 5,
            std::clamp(n - 10, 0.0F, 5.0F) / 5};
  return {count >= 1 ? 1.0F : 0.0F, count >= 2 ? 1.0F : 0.0F, count >= 3 ? 1.0F : 0.0F,
          count > 3 ? (n - 3) / 2 : 0.0F};
}

Weights::Weights(int hidden_size)
    : hidden(hidden_size),
      first(static_cast<std::size_t>(input_count * hidden_size)),
      first_bias(static_cast<std::size_t>(hidden_size)),
      second(static_cast<std::size_t>(hidden_size * second_layer)),
      second_bias(second_layer),
      third(second_layer * output_count),
      third_bias(output_count) {}

Net::Net(const Weights& weights)
    : hidden_(weights.hidden),
      measure_rows_(weights.first.begin() + static_cast<std::ptrdiff_t>(unit_count) * hidden_,
                    weights.first.end()),
      first_bias_(weights.first_bias),
      second_(weights.second),
      second_bias_{},
      third_{},
      third_bias_{} {
  const auto width = static_cast<std::size_t>(hidden_);
  rows_.assign(std::size_t{2} * places_per_side * most_on_place * width, 0.0F);
  for (std::size_t place = 0; place < std::size_t{2} * places_per_side; ++place) {
    for (int count = 1; count < most_on_place; ++count) {
      float* row = &rows_[(place * most_on_place + static_cast<std::size_t>(count)) * width];
      const auto parts = units(static_cast<int>(place % places_per_side), count);
      for (std::size_t unit = 0; unit < units_per_place; ++unit) {
        if (parts[unit] == 0) continue;
        const float* source = &weights.first[(place * units_per_place + unit) * width];
        for (std::size_t i = 0; i < width; ++i) row[i] += parts[unit] * source[i];
      }
    }
  }
  std::copy_n(weights.second_bias.begin(), second_layer, second_bias_.begin());
  for (std::size_t j = 0; j < second_layer; ++j) {
    for (std::size_t k = 0; k < output_count; ++k)
      third_[j * 8 + k] = weights.third[j * output_count + k];
  }
  std::copy_n(weights.third_bias.begin(), output_count, third_bias_.begin());
}

#if defined(__x86_64__) && defined(__ELF__)
__attribute__((target_clones("arch=x86-64-v4", "avx2", "default")))
#endif
Chances
Net::evaluate(const Board& board, Side on_roll) const {
  alignas(64) float hidden[widest_hidden];
  const auto width = static_cast<std::size_t>(hidden_);
  std::copy_n(first_bias_.data(), width, hidden);
  for (std::size_t side = 0; side < 2; ++side) {
    const Camp& camp = board.of(side == 0 ? on_roll : opponent(on_roll));
    for (std::size_t place = 0; place < places_per_side; ++place) {
      if (camp[place] == 0) continue;
      const float* row =
          &rows_[((side * places_per_side + place) * most_on_place + camp[place]) * width];
      for (std::size_t i = 0; i < width; ++i) hidden[i] += row[i];
    }
  }
  Measures measures;
  measure(board, on_roll, measures);
  for (std::size_t m = 0; m < measure_count; ++m) {
    const float value = measures[m];
    if (value == 0) continue;
    const float* row = &measure_rows_[m * width];
    for (std::size_t i = 0; i < width; ++i) hidden[i] += value * row[i];
  }

  alignas(64) std::array<float, second_layer> second = second_bias_;
  for (std::size_t i = 0; i < width; ++i) {
    const float value = hidden[i];
    if (value <= 0) continue;
    const float* row = &second_[i * second_layer];
    for (std::size_t j = 0; j < second_layer; ++j) second[j] += value * row[j];
  }
  alignas(32) std::array<float, 8> out = third_bias_;
  for (std::size_t j = 0; j < second_layer; ++j) {
    const float value = std::max(second[j], 0.0F);
    for (std::size_t k = 0; k < 8; ++k) out[k] += value * third_[j * 8 + k];
  }

  Chances chances;
  chances.win = logistic(out[0]);
  // A side that has borne off a checker cannot lose a gammon.
  if (board.count(opponent(on_roll), off_place) == 0) {
    chances.win_gammon = std::min(logistic(out[1]), chances.win);
    chances.win_backgammon = std::min(logistic(out[2]), chances.win_gammon);
  }
  if (board.count(on_roll, off_place) == 0) {
    chances.lose_gammon = std::min(logistic(out[3]), 1 - chances.win);
    chances.lose_backgammon = std::min(logistic(out[4]), chances.lose_gammon);
  }
  return chances;
}

}  // namespace pointwright::judge

#include "judge/net.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstring>
#include <numbers>

#include "judge/kernels.hpp"

namespace pointwright::judge {
namespace {

constexpr std::size_t measure_pair_count = measure_count / 2;

/// Counts of few and large steps are multiplied, so that the weights of all measures have a similar
/// size and fit in 16 bits at one scale: unit times this lies between 96 and 432.
constexpr std::array<std::int16_t, measures_per_side> count_factors{1, 3,  1, 3, 16, 16,
                                                                    1, 20, 8, 2, 16, 5};

/// The second layer takes numbers from 0 to 16 in steps of 1/2048.
constexpr int input_bits = 11;
/// The most that the sums of the first layer are scaled up by, as a power of two.
constexpr int most_first_bits = 18;
constexpr int most_second_bits = 14;
constexpr double largest_input = 32767;
constexpr double largest_sum = 2147483647;

double largest_size(std::span<const float> values) {
  double largest = 0;
  for (const float value : values)
    largest = std::max(largest, std::abs(static_cast<double>(value)));
  return largest;
}

/// The nearest whole number, halves away from zero.
std::int32_t rounded(double value) {
  return static_cast<std::int32_t>(value + (value < 0 ? -0.5 : 0.5));
}

/// e to the power of `x`, for -30 <= x <= 30, by the series of 2^f around 0 with -1/2 <= f <= 1/2.
/// Written out so that every build gives the same numbers; the relative error is below 1e-6.
float exponential(float x) {
  const float in_twos = x * std::numbers::log2e_v<float>;
  // Adding and taking away 1.5 * 2^23 rounds to the nearest whole number.
  constexpr float rounder = 12582912.0F;
  const float whole = (in_twos + rounder) - rounder;
  const float f = in_twos - whole;
  float power = 1.5403530e-4F;
  power = power * f + 1.3333558e-3F;
  power = power * f + 9.6181291e-3F;
  power = power * f + 5.5504109e-2F;
  power = power * f + 2.4022651e-1F;
  power = power * f + std::numbers::ln2_v<float>;
  power = power * f + 1.0F;
  const auto exponent = static_cast<std::uint32_t>(static_cast<std::int32_t>(whole) + 127) << 23U;
  return power * std::bit_cast<float>(exponent);
}

/// The five chances from the sums of the second layer. Four partial sums, always the same ones.
std::array<float, padded_outputs> third_layer(
    const std::array<std::int32_t, second_layer>& sums, float scale,
    const std::array<float, second_layer * padded_outputs>& weights,
    const std::array<float, padded_outputs>& bias) {
  float parts[4][padded_outputs] = {};
  for (std::size_t j = 0; j < second_layer; j += 4) {
    for (std::size_t part = 0; part < 4; ++part) {
      const float value = static_cast<float>(std::max(sums[j + part], 0)) * scale;
      for (std::size_t k = 0; k < padded_outputs; ++k)
        parts[part][k] += value * weights[(j + part) * padded_outputs + k];
    }
  }
  std::array<float, padded_outputs> out;
  for (std::size_t k = 0; k < padded_outputs; ++k) {
    const float sum = bias[k] + ((parts[0][k] + parts[1][k]) + (parts[2][k] + parts[3][k]));
    out[k] = 1.0F / (1.0F + exponential(std::clamp(-sum, -30.0F, 30.0F)));
  }
  return out;
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
      third(std::size_t{second_layer} * output_count),
      third_bias(output_count) {}

Net::Net(const Weights& weights) : Net(weights, best_kernels()) {}

Net::Net(const Weights& weights, const Kernels& kernels)
    : kernels_(&kernels),
      hidden_(static_cast<std::size_t>(weights.hidden)),
      second_bias_{},
      third_{},
      third_bias_{} {
  // Measures first: their weights must fit in 16 bits, which settles the scale of the layer.
  const std::span<const float> measure_weights =
      std::span(weights.first).subspan(static_cast<std::size_t>(unit_count) * hidden_);
  const auto count_unit = [](std::size_t m) {
    return static_cast<double>(measure_units[m % measures_per_side]) *
           count_factors[m % measures_per_side];
  };
  // Scales are powers of two: multiplying by them rounds nothing.
  int first_bits = most_first_bits;
  for (std::size_t m = 0; m < measure_count; ++m) {
    const double largest = largest_size(measure_weights.subspan(m * hidden_, hidden_));
    while (first_bits > input_bits &&
           std::ldexp(largest / count_unit(m), first_bits) > largest_input)
      --first_bits;
  }
  first_shift_ = first_bits - input_bits;
  const double first_scale = std::ldexp(1.0, first_bits);
  measure_pairs_.resize(measure_count * hidden_);
  for (std::size_t m = 0; m < measure_count; ++m) {
    for (std::size_t i = 0; i < hidden_; ++i) {
      const double weight = static_cast<double>(measure_weights[m * hidden_ + i]) / count_unit(m);
      measure_pairs_[(m / 2 * hidden_ + i) * 2 + m % 2] = static_cast<std::int16_t>(
          rounded(std::clamp(weight * first_scale, -largest_input, largest_input)));
    }
  }
  rows_.assign(std::size_t{2} * places_per_side * most_on_place * hidden_, 0);
  std::vector<double> sums(hidden_);
  for (std::size_t place = 0; place < std::size_t{2} * places_per_side; ++place) {
    for (int count = 1; count < most_on_place; ++count) {
      const auto parts = units(static_cast<int>(place % places_per_side), count);
      std::fill(sums.begin(), sums.end(), 0.0);
      for (std::size_t unit = 0; unit < units_per_place; ++unit) {
        if (parts[unit] == 0) continue;
        const float* source = &weights.first[(place * units_per_place + unit) * hidden_];
        for (std::size_t i = 0; i < hidden_; ++i)
          sums[i] += static_cast<double>(parts[unit]) * static_cast<double>(source[i]);
      }
      std::int32_t* row =
          &rows_[(place * most_on_place + static_cast<std::size_t>(count)) * hidden_];
      for (std::size_t i = 0; i < hidden_; ++i) row[i] = rounded(sums[i] * first_scale);
    }
  }
  first_bias_.reserve(hidden_);
  for (const float bias : weights.first_bias)
    first_bias_.push_back(rounded(static_cast<double>(bias) * first_scale));

  // The second layer: no sum of the largest inputs may overflow.
  double largest_column = 0;
  double largest_weight = largest_size(weights.second);
  for (std::size_t j = 0; j < second_layer; ++j) {
    double column = std::abs(static_cast<double>(weights.second_bias[j])) / 16;
    for (std::size_t i = 0; i < hidden_; ++i)
      column += std::abs(static_cast<double>(weights.second[i * second_layer + j]));
    largest_column = std::max(largest_column, column);
  }
  int second_bits = most_second_bits;
  while (second_bits > 0 &&
         (std::ldexp(largest_weight, second_bits) > largest_input ||
          std::ldexp(largest_column, second_bits) * largest_input > largest_sum * 0.99))
    --second_bits;
  const double second_factor = std::ldexp(1.0, second_bits);
  second_.resize(hidden_ * second_layer);
  for (std::size_t i = 0; i < hidden_; ++i) {
    for (std::size_t j = 0; j < second_layer; ++j)
      second_[(i / 2 * second_layer + j) * 2 + i % 2] = static_cast<std::int16_t>(
          rounded(static_cast<double>(weights.second[i * second_layer + j]) * second_factor));
  }
  for (std::size_t j = 0; j < second_layer; ++j)
    second_bias_[j] =
        rounded(std::ldexp(static_cast<double>(weights.second_bias[j]), second_bits + input_bits));
  second_scale_ = static_cast<float>(std::ldexp(1.0, -(second_bits + input_bits)));

  for (std::size_t j = 0; j < second_layer; ++j) {
    for (std::size_t k = 0; k < output_count; ++k)
      third_[j * padded_outputs + k] = weights.third[j * output_count + k];
  }
  std::copy_n(weights.third_bias.begin(), output_count, third_bias_.begin());
}

std::span<const std::int32_t> Net::row(std::size_t side, std::size_t place,
                                       std::size_t count) const {
  return std::span(rows_).subspan(
      ((side * places_per_side + place) * most_on_place + count) * hidden_, hidden_);
}

void Net::add_camp(std::size_t side, const Camp& camp, std::int32_t* sums) const {
  for (std::size_t place = 0; place < places_per_side; ++place) {
    if (camp[place] == 0) continue;
    const auto values = row(side, place, camp[place]);
    for (std::size_t i = 0; i < hidden_; ++i) sums[i] += values[i];
  }
}

Chances Net::evaluate(const Board& board, Side on_roll) const {
  NetScratch scratch;
  return evaluate(board, on_roll, scratch);
}

Chances Net::evaluate(const Board& board, Side on_roll, NetScratch& scratch) const {
  const Camp& mine = board.of(on_roll);
  const Camp& theirs = board.of(opponent(on_roll));
  if (scratch.net != this || scratch.camp != mine) {
    scratch.net = this;
    scratch.camp = mine;
    std::copy(first_bias_.begin(), first_bias_.end(), scratch.sums.begin());
    add_camp(0, mine, scratch.sums.data());
  }

  std::array<const std::int32_t*, places_per_side> rows;
  std::size_t row_count = 0;
  for (std::size_t place = 0; place < places_per_side; ++place) {
    if (theirs[place] != 0) rows[row_count++] = row(1, place, theirs[place]).data();
  }
  Counts counts;
  count_measures(board, on_roll, counts);
  std::array<MeasureRow, measure_pair_count> measures;
  std::size_t measure_rows = 0;
  for (std::size_t pair = 0; pair < measure_pair_count; ++pair) {
    const std::size_t m = 2 * pair;
    if (counts[m] == 0 && counts[m + 1] == 0) continue;
    const auto scaled = [&](std::size_t which) {
      return static_cast<std::int16_t>(counts[which] * count_factors[which % measures_per_side]);
    };
    measures[measure_rows++] = {&measure_pairs_[pair * hidden_ * 2], scaled(m), scaled(m + 1)};
  }

  alignas(64) std::int16_t hidden[widest_hidden];
  kernels_->first({scratch.sums.data(),
                   {rows.data(), row_count},
                   {measures.data(), measure_rows},
                   first_shift_},
                  hidden_, hidden);
  alignas(64) std::array<std::int32_t, second_layer> second = second_bias_;
  kernels_->second(hidden, second_.data(), hidden_, second.data());
  const std::array<float, padded_outputs> out =
      third_layer(second, second_scale_, third_, third_bias_);

  Chances chances;
  chances.win = out[0];
  // A side that has borne off a checker cannot lose a gammon.
  if (theirs[off_place] == 0) {
    chances.win_gammon = std::min(out[1], chances.win);
    chances.win_backgammon = std::min(out[2], chances.win_gammon);
  }
  if (mine[off_place] == 0) {
    chances.lose_gammon = std::min(out[3], 1 - chances.win);
    chances.lose_backgammon = std::min(out[4], chances.lose_gammon);
  }
  return chances;
}

}  // namespace pointwright::judge

#include "judge/net.hpp"

#include <algorithm>
#include <bit>
#include <cmath>

#include "judge/kernels.hpp"
#include "judge/sight.hpp"

namespace pointwright::judge {
namespace {

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

/// The chances that the outputs stand for, in an order that a game allows.
Chances chances_of(const Board& board, Side on_roll, const float* out) {
  Chances chances;
  chances.win = out[0];
  // A side that has borne off a checker cannot lose a gammon.
  if (board.of(opponent(on_roll))[off_place] == 0) {
    chances.win_gammon = std::min(out[1], chances.win);
    chances.win_backgammon = std::min(out[2], chances.win_gammon);
  }
  if (board.of(on_roll)[off_place] == 0) {
    chances.lose_gammon = std::min(out[3], 1 - chances.win);
    chances.lose_backgammon = std::min(out[4], chances.lose_gammon);
  }
  return chances;
}

}  // namespace

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
      last_{} {
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
  last_.scale = static_cast<float>(std::ldexp(1.0, -(second_bits + input_bits)));

  for (std::size_t j = 0; j < second_layer; ++j) {
    for (std::size_t k = 0; k < output_count; ++k)
      last_.weights[j * padded_outputs + k] = weights.third[j * output_count + k];
  }
  std::copy_n(weights.third_bias.begin(), output_count, last_.bias.begin());
}

Net::Rows Net::rows(std::size_t side, const Camp& camp) const {
  Rows rows;
  for (Places held = held_places(camp); held != 0; held &= held - 1) {
    const auto place = static_cast<std::size_t>(std::countr_zero(held));
    rows.of[rows.count++] =
        &rows_[((side * places_per_side + place) * most_on_place + camp[place]) * hidden_];
  }
  return rows;
}

Chances Net::evaluate(const Board& board, Side on_roll) const {
  NetScratch scratch;
  return evaluate(board, on_roll, scratch);
}

Chances Net::evaluate(const Board& board, Side on_roll, NetScratch& scratch) const {
  const Board* const boards[] = {&board};
  Chances chances;
  evaluate(boards, on_roll, scratch, &chances);
  return chances;
}

void Net::first_layer(const Board& board, Side on_roll, NetScratch& scratch,
                      std::int16_t* hidden) const {
  const Camp& mine = board.of(on_roll);
  if (scratch.net != this || scratch.camp != mine) {
    scratch.net = this;
    scratch.camp = mine;
    const Rows my_rows = rows(0, mine);
    kernels_->add_rows(first_bias_.data(), {my_rows.of.data(), my_rows.count}, hidden_,
                       scratch.sums.data());
  }
  Counts counts;
  kernels_->count(board, on_roll, counts);
  for (std::size_t m = 0; m < measure_count; ++m)
    counts[m] = static_cast<std::int16_t>(counts[m] * count_factors[m % measures_per_side]);
  const Rows their_rows = rows(1, board.of(opponent(on_roll)));
  kernels_->first({scratch.sums.data(),
                   {their_rows.of.data(), their_rows.count},
                   counts.data(),
                   measure_pairs_.data(),
                   first_shift_},
                  hidden_, hidden);
}

void Net::evaluate(std::span<const Board* const> boards, Side on_roll, NetScratch& scratch,
                   Chances* chances) const {
  alignas(vector_bytes) std::int16_t hidden[net_group * widest_hidden];
  alignas(vector_bytes) std::int32_t second[net_group * second_layer];
  alignas(vector_bytes) float outputs[net_group * padded_outputs];
  for (std::size_t p = 0; p < boards.size(); ++p)
    first_layer(*boards[p], on_roll, scratch, hidden + p * hidden_);
  kernels_->second(hidden, second_.data(), second_bias_.data(), hidden_, boards.size(), second);
  kernels_->last(last_, second, boards.size(), outputs);
  for (std::size_t p = 0; p < boards.size(); ++p)
    chances[p] = chances_of(*boards[p], on_roll, outputs + p * padded_outputs);
}

}  // namespace pointwright::judge

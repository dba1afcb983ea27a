#include "judge/kernels.hpp"

#include <algorithm>
#include <bit>
#include <numbers>
#include <vector>

#include "judge/exponential.hpp"
#include "judge/kernels_wide.hpp"

namespace pointwright::judge {
namespace {

void plain_add_rows(const std::int32_t* base, std::span<const std::int32_t* const> rows,
                    std::size_t width, std::int32_t* sums) {
  std::copy_n(base, width, sums);
  for (const std::int32_t* row : rows) {
    for (std::size_t i = 0; i < width; ++i) sums[i] += row[i];
  }
}

void plain_first(const FirstLayer& layer, std::size_t width, std::int16_t* out) {
  constexpr std::size_t block = 16;
  const std::int32_t half = (std::int32_t{1} << static_cast<unsigned>(layer.shift)) / 2;
  for (std::size_t at = 0; at < width; at += block) {
    std::int32_t sums[block];
    for (std::size_t i = 0; i < block; ++i) sums[i] = layer.base[at + i];
    for (const std::int32_t* row : layer.rows) {
      for (std::size_t i = 0; i < block; ++i) sums[i] += row[at + i];
    }
    for (std::size_t pair = 0; pair < measure_pair_count; ++pair) {
      const std::int16_t* weights = layer.pairs + 2 * (pair * width + at);
      const std::int32_t first = layer.counts[2 * pair];
      const std::int32_t second = layer.counts[2 * pair + 1];
      for (std::size_t i = 0; i < block; ++i)
        sums[i] += first * weights[2 * i] + second * weights[2 * i + 1];
    }
    for (std::size_t i = 0; i < block; ++i)
      out[at + i] =
          static_cast<std::int16_t>(std::clamp((sums[i] + half) >> layer.shift, 0, 32767));
  }
}

void plain_second(const std::int16_t* in, const std::int16_t* weights, const std::int32_t* bias,
                  std::size_t width, std::size_t positions, std::int32_t* sums) {
  for (std::size_t p = 0; p < positions; ++p, in += width, sums += second_layer) {
    std::copy_n(bias, second_layer, sums);
    for (std::size_t i = 0; i < width; i += 2) {
      const std::int16_t* row = weights + i * second_layer;
      for (std::size_t j = 0; j < second_layer; ++j)
        sums[j] += std::int32_t{in[i]} * row[2 * j] + std::int32_t{in[i + 1]} * row[2 * j + 1];
    }
  }
}

/// See exponential.hpp.
float exponential(float x) {
  const float in_twos = x * std::numbers::log2e_v<float>;
  const float whole = (in_twos + exponent_rounder) - exponent_rounder;
  const float f = in_twos - whole;
  float power = power_series[0];
  for (std::size_t i = 1; i < std::size(power_series); ++i) power = power * f + power_series[i];
  power = power * f + std::numbers::ln2_v<float>;
  power = power * f + 1.0F;
  const auto exponent = static_cast<std::uint32_t>(static_cast<std::int32_t>(whole) + 127) << 23U;
  return power * std::bit_cast<float>(exponent);
}

/// Four partial sums, always the same ones.
void plain_last(const LastLayer& layer, const std::int32_t* sums, std::size_t positions,
                float* out) {
  for (std::size_t p = 0; p < positions; ++p, sums += second_layer, out += padded_outputs) {
    float parts[4][padded_outputs] = {};
    for (std::size_t j = 0; j < second_layer; j += 4) {
      for (std::size_t part = 0; part < 4; ++part) {
        const float value = static_cast<float>(std::max(sums[j + part], 0)) * layer.scale;
        for (std::size_t k = 0; k < padded_outputs; ++k)
          parts[part][k] += value * layer.weights[(j + part) * padded_outputs + k];
      }
    }
    for (std::size_t k = 0; k < padded_outputs; ++k) {
      const float sum = layer.bias[k] + ((parts[0][k] + parts[1][k]) + (parts[2][k] + parts[3][k]));
      out[k] = 1.0F / (1.0F + exponential(std::clamp(-sum, -exponent_limit, exponent_limit)));
    }
  }
}

std::vector<const Kernels*> found() {
  std::vector<const Kernels*> kernels{&plain_kernels()};
#if defined(__x86_64__)
  if (has_avx2()) kernels.push_back(&avx2_kernels());
  if (has_avx512()) kernels.push_back(&avx512_kernels());
#elif defined(__wasm_simd128__)
  kernels.push_back(&wasm_kernels());
#endif
  return kernels;
}

}  // namespace

const Kernels& plain_kernels() {
  static constexpr Kernels kernels{count_measures_plainly, plain_add_rows, plain_first,
                                   plain_second,           plain_last,     "plain"};
  return kernels;
}

std::span<const Kernels* const> all_kernels() {
  static const std::vector<const Kernels*> kernels = found();
  return kernels;
}

const Kernels& best_kernels() {
  static const Kernels& best = *all_kernels().back();
  return best;
}

}  // namespace pointwright::judge

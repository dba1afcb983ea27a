#include "judge/kernels_wide.hpp"

#if defined(__wasm_simd128__)
#include <wasm_simd128.h>

#include <algorithm>
#include <bit>
#include <numbers>

#include "judge/exponential.hpp"

namespace pointwright::judge {
namespace {

constexpr std::size_t lanes = 4;

/// Outputs that are added up together: engines of pages have 16 registers for vectors.
constexpr std::size_t block = 16;
constexpr std::size_t vectors = block / lanes;

void start(const std::int32_t* base, v128_t (&sums)[vectors]) {
  for (std::size_t v = 0; v < vectors; ++v) sums[v] = wasm_v128_load(base + v * lanes);
}

void add_row(const std::int32_t* row, v128_t (&sums)[vectors]) {
  for (std::size_t v = 0; v < vectors; ++v)
    sums[v] = wasm_i32x4_add(sums[v], wasm_v128_load(row + v * lanes));
}

/// Adds two rows that stand side by side, each so many times as `pair` says in every lane.
void add_pair(v128_t pair, const std::int16_t* weights, v128_t (&sums)[vectors]) {
  for (std::size_t v = 0; v < vectors; ++v)
    sums[v] = wasm_i32x4_add(sums[v],
                             wasm_i32x4_dot_i16x8(pair, wasm_v128_load(weights + 2 * v * lanes)));
}

void finish(const v128_t (&sums)[vectors], std::int32_t* out) {
  for (std::size_t v = 0; v < vectors; ++v) wasm_v128_store(out + v * lanes, sums[v]);
}

void add_rows(const std::int32_t* base, std::span<const std::int32_t* const> rows,
              std::size_t width, std::int32_t* out) {
  for (std::size_t at = 0; at < width; at += block) {
    v128_t sums[vectors];
    start(base + at, sums);
    for (const std::int32_t* row : rows) add_row(row + at, sums);
    finish(sums, out + at);
  }
}

void first(const FirstLayer& layer, std::size_t width, std::int16_t* out) {
  const auto shift = static_cast<std::uint32_t>(layer.shift);
  const v128_t half = wasm_i32x4_splat((std::int32_t{1} << shift) / 2);
  const v128_t zero = wasm_i16x8_splat(0);
  for (std::size_t at = 0; at < width; at += block) {
    v128_t sums[vectors];
    start(layer.base + at, sums);
    for (const std::int32_t* row : layer.rows) add_row(row + at, sums);
    for (std::size_t pair = 0; pair < measure_pair_count; ++pair)
      add_pair(wasm_v128_load32_splat(layer.counts + 2 * pair),
               layer.pairs + 2 * (pair * width + at), sums);
    for (std::size_t v = 0; v < vectors; v += 2) {
      const v128_t low = wasm_i32x4_shr(wasm_i32x4_add(sums[v], half), shift);
      const v128_t high = wasm_i32x4_shr(wasm_i32x4_add(sums[v + 1], half), shift);
      wasm_v128_store(out + at + v * lanes,
                      wasm_i16x8_max(wasm_i16x8_narrow_i32x4(low, high), zero));
    }
  }
}

/// Which of up to 64 pairs of inputs are not both nothing: bit i for pair i.
std::uint64_t pairs_in_use(const std::int16_t* in, std::size_t pairs) {
  const v128_t zero = wasm_i32x4_splat(0);
  std::uint64_t used = 0;
  for (std::size_t i = 0; i < pairs; i += lanes)
    used |= std::uint64_t{wasm_i32x4_bitmask(wasm_i32x4_ne(wasm_v128_load(in + 2 * i), zero))} << i;
  return used;
}

/// Two thirds of the pairs of inputs are nothing in the shipped nets: passing over them saves more
/// than finding them costs.
void second(const std::int16_t* in, const std::int16_t* weights, const std::int32_t* bias,
            std::size_t width, std::size_t positions, std::int32_t* out) {
  constexpr std::size_t chunk = 64;
  for (std::size_t p = 0; p < positions; ++p, in += width, out += second_layer) {
    std::copy_n(bias, second_layer, out);
    for (std::size_t from = 0; from < width / 2; from += chunk) {
      const std::uint64_t used = pairs_in_use(in + 2 * from, std::min(chunk, width / 2 - from));
      for (std::size_t at = 0; at < second_layer; at += block) {
        v128_t sums[vectors];
        start(out + at, sums);
        for (std::uint64_t left = used; left != 0; left &= left - 1) {
          const std::size_t pair = from + static_cast<std::size_t>(std::countr_zero(left));
          add_pair(wasm_v128_load32_splat(in + 2 * pair), weights + 2 * (pair * second_layer + at),
                   sums);
        }
        finish(sums, out + at);
      }
    }
  }
}

/// See exponential.hpp.
v128_t exponential(v128_t x) {
  const v128_t rounder = wasm_f32x4_splat(exponent_rounder);
  const v128_t in_twos = wasm_f32x4_mul(x, wasm_f32x4_splat(std::numbers::log2e_v<float>));
  const v128_t whole = wasm_f32x4_sub(wasm_f32x4_add(in_twos, rounder), rounder);
  const v128_t f = wasm_f32x4_sub(in_twos, whole);
  v128_t power = wasm_f32x4_splat(power_series[0]);
  for (std::size_t i = 1; i < std::size(power_series); ++i)
    power = wasm_f32x4_add(wasm_f32x4_mul(power, f), wasm_f32x4_splat(power_series[i]));
  power = wasm_f32x4_add(wasm_f32x4_mul(power, f), wasm_f32x4_splat(std::numbers::ln2_v<float>));
  power = wasm_f32x4_add(wasm_f32x4_mul(power, f), wasm_f32x4_splat(1.0F));
  const v128_t exponent =
      wasm_i32x4_shl(wasm_i32x4_add(wasm_i32x4_trunc_sat_f32x4(whole), wasm_i32x4_splat(127)), 23);
  return wasm_f32x4_mul(power, exponent);
}

/// One over one plus e to the power of minus `sum`.
v128_t logistic(v128_t sum) {
  const v128_t one = wasm_f32x4_splat(1.0F);
  const v128_t negative =
      wasm_f32x4_pmax(wasm_f32x4_splat(-exponent_limit),
                      wasm_f32x4_pmin(wasm_f32x4_splat(exponent_limit), wasm_f32x4_neg(sum)));
  return wasm_f32x4_div(one, wasm_f32x4_add(one, exponential(negative)));
}

void last(const LastLayer& layer, const std::int32_t* sums, std::size_t positions, float* out) {
  constexpr std::size_t outputs = padded_outputs / lanes;
  const v128_t scale = wasm_f32x4_splat(layer.scale);
  const v128_t zero = wasm_i32x4_splat(0);
  for (std::size_t p = 0; p < positions; ++p, sums += second_layer, out += padded_outputs) {
    v128_t parts[4][outputs] = {};
    for (std::size_t j = 0; j < second_layer; j += 4) {
      for (std::size_t part = 0; part < 4; ++part) {
        const v128_t value = wasm_f32x4_mul(
            wasm_f32x4_convert_i32x4(wasm_i32x4_max(wasm_v128_load32_splat(sums + j + part), zero)),
            scale);
        const float* weights = &layer.weights[(j + part) * padded_outputs];
        for (std::size_t k = 0; k < outputs; ++k)
          parts[part][k] = wasm_f32x4_add(
              parts[part][k], wasm_f32x4_mul(value, wasm_v128_load(weights + k * lanes)));
      }
    }
    for (std::size_t k = 0; k < outputs; ++k) {
      const v128_t sum = wasm_f32x4_add(wasm_f32x4_add(parts[0][k], parts[1][k]),
                                        wasm_f32x4_add(parts[2][k], parts[3][k]));
      wasm_v128_store(out + k * lanes,
                      logistic(wasm_f32x4_add(wasm_v128_load(&layer.bias[k * lanes]), sum)));
    }
  }
}

}  // namespace

const Kernels& wasm_kernels() {
  static const Kernels kernels{count_measures_plainly, add_rows, first, second, last,
                               "WebAssembly SIMD"};
  return kernels;
}

}  // namespace pointwright::judge
#endif

#include "judge/kernels_wide.hpp"

#if defined(__x86_64__)
#include <cstring>
#include <numbers>

#include "judge/avx512.hpp"
#include "judge/exponential.hpp"

namespace pointwright::judge {
namespace {

constexpr std::size_t lanes = 16;

template <class Number>
POINTWRIGHT_AVX512 inline __m512i load(const Number* from) {
  return _mm512_load_si512(from);
}

/// Two 16-bit numbers side by side in every 32 bits.
POINTWRIGHT_AVX512 inline __m512i both(const std::int16_t* two) {
  std::int32_t pair = 0;
  std::memcpy(&pair, two, sizeof pair);
  return _mm512_set1_epi32(pair);
}

/// `Blocks` times 16 sums stay in registers while everything is added, so that each loop over rows
/// runs once.
template <std::size_t Blocks>
POINTWRIGHT_AVX512 inline void gather(const std::int32_t* base,
                                      std::span<const std::int32_t* const> rows, std::size_t at,
                                      __m512i (&sums)[Blocks]) {
  for (std::size_t b = 0; b < Blocks; ++b) sums[b] = load(base + at + b * lanes);
  for (const std::int32_t* row : rows) {
    for (std::size_t b = 0; b < Blocks; ++b)
      sums[b] = _mm512_add_epi32(sums[b], load(row + at + b * lanes));
  }
}

template <std::size_t Blocks>
POINTWRIGHT_AVX512 inline void add_rows_block(const std::int32_t* base,
                                              std::span<const std::int32_t* const> rows,
                                              std::size_t at, std::int32_t* out) {
  __m512i sums[Blocks];
  gather(base, rows, at, sums);
  for (std::size_t b = 0; b < Blocks; ++b) _mm512_store_si512(out + at + b * lanes, sums[b]);
}

template <std::size_t Blocks>
POINTWRIGHT_AVX512 inline void first_block(const FirstLayer& layer, std::size_t width,
                                           std::size_t at, std::int16_t* out) {
  __m512i sums[Blocks];
  gather(layer.base, layer.rows, at, sums);
  for (std::size_t pair = 0; pair < measure_pair_count; ++pair) {
    const __m512i counts = both(layer.counts + 2 * pair);
    const std::int16_t* weights = layer.pairs + 2 * (pair * width + at);
    for (std::size_t b = 0; b < Blocks; ++b)
      sums[b] = _mm512_dpwssd_epi32(sums[b], counts, load(weights + 2 * b * lanes));
  }
  const __m512i half =
      _mm512_set1_epi32((std::int32_t{1} << static_cast<unsigned>(layer.shift)) / 2);
  const __m128i shift = _mm_cvtsi32_si128(layer.shift);
  for (std::size_t b = 0; b < Blocks; ++b) {
    const __m512i scaled = _mm512_sra_epi32(_mm512_add_epi32(sums[b], half), shift);
    const __m512i positive = _mm512_max_epi32(scaled, _mm512_setzero_si512());
    _mm512_mask_cvtsepi32_storeu_epi16(out + at + b * lanes, 0xFFFF, positive);
  }
}

/// The first layer of the shipped nets has this many blocks.
constexpr std::size_t many = 8;

POINTWRIGHT_AVX512 void add_rows(const std::int32_t* base,
                                 std::span<const std::int32_t* const> rows, std::size_t width,
                                 std::int32_t* sums) {
  std::size_t at = 0;
  for (; at + many * lanes <= width; at += many * lanes) add_rows_block<many>(base, rows, at, sums);
  for (; at < width; at += lanes) add_rows_block<1>(base, rows, at, sums);
}

POINTWRIGHT_AVX512 void first(const FirstLayer& layer, std::size_t width, std::int16_t* out) {
  std::size_t at = 0;
  for (; at + many * lanes <= width; at += many * lanes) first_block<many>(layer, width, at, out);
  for (; at < width; at += lanes) first_block<1>(layer, width, at, out);
}

/// The weights are loaded once for `Positions` positions.
template <std::size_t Positions>
POINTWRIGHT_AVX512 inline void second_block(const std::int16_t* in, const std::int16_t* weights,
                                            const std::int32_t* bias, std::size_t width,
                                            std::int32_t* sums) {
  static_assert(second_layer == 2 * lanes);
  __m512i low[Positions];
  __m512i high[Positions];
  for (std::size_t p = 0; p < Positions; ++p) {
    low[p] = load(bias);
    high[p] = load(bias + lanes);
  }
  for (std::size_t i = 0; i < width; i += 2) {
    const __m512i low_weights = load(weights + i * second_layer);
    const __m512i high_weights = load(weights + i * second_layer + 2 * lanes);
    for (std::size_t p = 0; p < Positions; ++p) {
      const __m512i pair = both(in + p * width + i);
      low[p] = _mm512_dpwssd_epi32(low[p], pair, low_weights);
      high[p] = _mm512_dpwssd_epi32(high[p], pair, high_weights);
    }
  }
  for (std::size_t p = 0; p < Positions; ++p) {
    _mm512_store_si512(sums + p * second_layer, low[p]);
    _mm512_store_si512(sums + p * second_layer + lanes, high[p]);
  }
}

POINTWRIGHT_AVX512 void second(const std::int16_t* in, const std::int16_t* weights,
                               const std::int32_t* bias, std::size_t width, std::size_t positions,
                               std::int32_t* sums) {
  constexpr std::size_t together = 4;
  for (; positions >= together; positions -= together) {
    second_block<together>(in, weights, bias, width, sums);
    in += together * width;
    sums += together * second_layer;
  }
  for (; positions > 0; --positions) {
    second_block<1>(in, weights, bias, width, sums);
    in += width;
    sums += second_layer;
  }
}

/// See exponential.hpp.
POINTWRIGHT_AVX512 inline __m512 exponential(__m512 x) {
  const __m512 rounder = _mm512_set1_ps(exponent_rounder);
  const __m512 in_twos = _mm512_mul_ps(x, _mm512_set1_ps(std::numbers::log2e_v<float>));
  const __m512 whole = _mm512_sub_ps(_mm512_add_ps(in_twos, rounder), rounder);
  const __m512 f = _mm512_sub_ps(in_twos, whole);
  __m512 power = _mm512_set1_ps(power_series[0]);
  for (std::size_t i = 1; i < std::size(power_series); ++i)
    power = _mm512_add_ps(_mm512_mul_ps(power, f), _mm512_set1_ps(power_series[i]));
  power = _mm512_add_ps(_mm512_mul_ps(power, f), _mm512_set1_ps(std::numbers::ln2_v<float>));
  power = _mm512_add_ps(_mm512_mul_ps(power, f), _mm512_set1_ps(1.0F));
  const __m512i exponent =
      _mm512_slli_epi32(_mm512_add_epi32(_mm512_cvttps_epi32(whole), _mm512_set1_epi32(127)), 23);
  return _mm512_mul_ps(power, _mm512_castsi512_ps(exponent));
}

/// Sixteen inputs of the last layer.
POINTWRIGHT_AVX512 inline __m512 rectified(const std::int32_t* sums, float scale) {
  return _mm512_mul_ps(_mm512_cvtepi32_ps(_mm512_max_epi32(load(sums), _mm512_setzero_si512())),
                       _mm512_set1_ps(scale));
}

POINTWRIGHT_AVX512 inline __m512 twice(const float* eight) {
  return _mm512_broadcast_f32x8(_mm256_load_ps(eight));
}

/// The last layer of two positions, one in each half of a vector.
POINTWRIGHT_AVX512 inline __m512 last_of_two(const LastLayer& layer, const std::int32_t* one,
                                             const std::int32_t* other) {
  static_assert(padded_outputs == 8);
  // Picks lane j of the one for the lower half and of the other for the upper half.
  const __m512i halves = _mm512_set_epi32(16, 16, 16, 16, 16, 16, 16, 16, 0, 0, 0, 0, 0, 0, 0, 0);
  __m512 parts[4] = {_mm512_setzero_ps(), _mm512_setzero_ps(), _mm512_setzero_ps(),
                     _mm512_setzero_ps()};
  for (std::size_t block = 0; block < second_layer; block += lanes) {
    const __m512 ones = rectified(one + block, layer.scale);
    const __m512 others = rectified(other + block, layer.scale);
    for (std::size_t j = 0; j < lanes; ++j) {
      const __m512i pick = _mm512_add_epi32(halves, _mm512_set1_epi32(static_cast<int>(j)));
      const __m512 value = _mm512_permutex2var_ps(ones, pick, others);
      const __m512 weights = twice(&layer.weights[(block + j) * padded_outputs]);
      parts[j % 4] = _mm512_add_ps(parts[j % 4], _mm512_mul_ps(value, weights));
    }
  }
  const __m512 sum = _mm512_add_ps(
      twice(layer.bias.data()),
      _mm512_add_ps(_mm512_add_ps(parts[0], parts[1]), _mm512_add_ps(parts[2], parts[3])));
  const __m512 limit = _mm512_set1_ps(exponent_limit);
  const __m512 one_vector = _mm512_set1_ps(1.0F);
  const __m512 negative = _mm512_sub_ps(_mm512_setzero_ps(), sum);
  const __m512 power = exponential(
      _mm512_max_ps(_mm512_min_ps(negative, limit), _mm512_sub_ps(_mm512_setzero_ps(), limit)));
  return _mm512_div_ps(one_vector, _mm512_add_ps(one_vector, power));
}

POINTWRIGHT_AVX512 void last(const LastLayer& layer, const std::int32_t* sums,
                             std::size_t positions, float* out) {
  constexpr std::size_t both_outputs = 2 * padded_outputs;
  for (; positions >= 2; positions -= 2) {
    _mm512_store_ps(out, last_of_two(layer, sums, sums + second_layer));
    sums += std::ptrdiff_t{2} * second_layer;
    out += both_outputs;
  }
  if (positions == 1) _mm256_store_ps(out, _mm512_castps512_ps256(last_of_two(layer, sums, sums)));
}

}  // namespace

bool has_avx512() {
  return __builtin_cpu_supports("avx512f") != 0 && __builtin_cpu_supports("avx512bw") != 0 &&
         __builtin_cpu_supports("avx512cd") != 0 && __builtin_cpu_supports("avx512dq") != 0 &&
         __builtin_cpu_supports("avx512vl") != 0 && __builtin_cpu_supports("avx512vnni") != 0 &&
         __builtin_cpu_supports("bmi") != 0 && __builtin_cpu_supports("bmi2") != 0 &&
         __builtin_cpu_supports("lzcnt") != 0 && __builtin_cpu_supports("popcnt") != 0;
}

const Kernels& avx512_kernels() {
  static const Kernels kernels{count_measures_avx512, add_rows, first, second, last, "AVX-512"};
  return kernels;
}

}  // namespace pointwright::judge
#endif

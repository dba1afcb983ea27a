#include "judge/kernels_wide.hpp"

#if defined(__x86_64__)
#include <immintrin.h>

#include <algorithm>
#include <bit>
#include <cstring>
#include <numbers>

#include "judge/counting.hpp"
#include "judge/exponential.hpp"

namespace pointwright::judge {
namespace {

#define POINTWRIGHT_AVX2 __attribute__((target("avx2,bmi,bmi2,lzcnt,popcnt")))

constexpr std::size_t lanes = 8;

// The intrinsics take pointers to their own vector types.
// NOLINTBEGIN(*-reinterpret-cast)
template <class Number>
POINTWRIGHT_AVX2 inline __m256i load(const Number* from) {
  return _mm256_load_si256(reinterpret_cast<const __m256i*>(from));
}
template <class Number>
POINTWRIGHT_AVX2 inline void store(Number* to, __m256i vector) {
  _mm256_store_si256(reinterpret_cast<__m256i*>(to), vector);
}
// NOLINTEND(*-reinterpret-cast)

/// Two 16-bit numbers side by side in every 32 bits.
POINTWRIGHT_AVX2 inline __m256i both(const std::int16_t* two) {
  std::int32_t pair = 0;
  std::memcpy(&pair, two, sizeof pair);
  return _mm256_set1_epi32(pair);
}

/// `Vectors` times eight sums stay in registers while everything is added, so that each loop over
/// rows runs once for them.
template <std::size_t Vectors>
POINTWRIGHT_AVX2 inline void gather(const std::int32_t* base,
                                    std::span<const std::int32_t* const> rows, std::size_t at,
                                    __m256i (&sums)[Vectors]) {
  for (std::size_t v = 0; v < Vectors; ++v) sums[v] = load(base + at + v * lanes);
  for (const std::int32_t* row : rows) {
    for (std::size_t v = 0; v < Vectors; ++v)
      sums[v] = _mm256_add_epi32(sums[v], load(row + at + v * lanes));
  }
}

template <std::size_t Vectors>
POINTWRIGHT_AVX2 inline void add_rows_block(const std::int32_t* base,
                                            std::span<const std::int32_t* const> rows,
                                            std::size_t at, std::int32_t* out) {
  __m256i sums[Vectors];
  gather(base, rows, at, sums);
  for (std::size_t v = 0; v < Vectors; ++v) store(out + at + v * lanes, sums[v]);
}

template <std::size_t Vectors>
POINTWRIGHT_AVX2 inline void first_block(const FirstLayer& layer, std::size_t width, std::size_t at,
                                         std::int16_t* out) {
  __m256i sums[Vectors];
  gather(layer.base, layer.rows, at, sums);
  for (std::size_t pair = 0; pair < measure_pair_count; ++pair) {
    const __m256i counts = both(layer.counts + 2 * pair);
    const std::int16_t* weights = layer.pairs + 2 * (pair * width + at);
    for (std::size_t v = 0; v < Vectors; ++v)
      sums[v] = _mm256_add_epi32(sums[v], _mm256_madd_epi16(counts, load(weights + 2 * v * lanes)));
  }
  const __m256i half =
      _mm256_set1_epi32((std::int32_t{1} << static_cast<unsigned>(layer.shift)) / 2);
  const __m128i shift = _mm_cvtsi32_si128(layer.shift);
  for (std::size_t v = 0; v < Vectors; v += 2) {
    const __m256i low = _mm256_sra_epi32(_mm256_add_epi32(sums[v], half), shift);
    const __m256i high = _mm256_sra_epi32(_mm256_add_epi32(sums[v + 1], half), shift);
    // Packing works on the halves of a vector apart; the permutation puts them in order again.
    const __m256i packed = _mm256_permute4x64_epi64(_mm256_packs_epi32(low, high), 0b11'01'10'00);
    store(out + at + v * lanes, _mm256_max_epi16(packed, _mm256_setzero_si256()));
  }
}

/// As many sums as registers have room for beside what is added.
constexpr std::size_t many = 8;

POINTWRIGHT_AVX2 void add_rows(const std::int32_t* base, std::span<const std::int32_t* const> rows,
                               std::size_t width, std::int32_t* sums) {
  std::size_t at = 0;
  for (; at + many * lanes <= width; at += many * lanes) add_rows_block<many>(base, rows, at, sums);
  for (; at < width; at += 2 * lanes) add_rows_block<2>(base, rows, at, sums);
}

POINTWRIGHT_AVX2 void first(const FirstLayer& layer, std::size_t width, std::int16_t* out) {
  std::size_t at = 0;
  for (; at + many * lanes <= width; at += many * lanes) first_block<many>(layer, width, at, out);
  for (; at < width; at += 2 * lanes) first_block<2>(layer, width, at, out);
}

/// Which of up to 64 pairs of inputs are not both nothing: bit i for pair i.
POINTWRIGHT_AVX2 inline std::uint64_t pairs_in_use(const std::int16_t* in, std::size_t pairs) {
  const __m256i zero = _mm256_setzero_si256();
  std::uint64_t idle = 0;
  for (std::size_t i = 0; i < pairs; i += 8) {
    const __m256i same = _mm256_cmpeq_epi32(load(in + 2 * i), zero);
    idle |= std::uint64_t{static_cast<std::uint8_t>(_mm256_movemask_ps(_mm256_castsi256_ps(same)))}
            << i;
  }
  return ~idle & (pairs < 64 ? (std::uint64_t{1} << pairs) - 1 : ~std::uint64_t{0});
}

/// Two thirds of the pairs of inputs are nothing in the shipped nets: passing over them saves more
/// than finding them costs.
POINTWRIGHT_AVX2 void second(const std::int16_t* in, const std::int16_t* weights,
                             const std::int32_t* bias, std::size_t width, std::size_t positions,
                             std::int32_t* sums) {
  static_assert(second_layer == 32);
  constexpr std::size_t chunk = 64;
  for (std::size_t p = 0; p < positions; ++p, in += width, sums += second_layer) {
    __m256i a = load(bias);
    __m256i b = load(bias + 8);
    __m256i c = load(bias + 16);
    __m256i d = load(bias + 24);
    for (std::size_t from = 0; from < width / 2; from += chunk) {
      std::uint64_t used = pairs_in_use(in + 2 * from, std::min(chunk, width / 2 - from));
      for (; used != 0; used &= used - 1) {
        const std::size_t pair = from + static_cast<std::size_t>(std::countr_zero(used));
        const __m256i inputs = both(in + 2 * pair);
        const std::int16_t* row = weights + 2 * pair * second_layer;
        a = _mm256_add_epi32(a, _mm256_madd_epi16(inputs, load(row)));
        b = _mm256_add_epi32(b, _mm256_madd_epi16(inputs, load(row + 16)));
        c = _mm256_add_epi32(c, _mm256_madd_epi16(inputs, load(row + 32)));
        d = _mm256_add_epi32(d, _mm256_madd_epi16(inputs, load(row + 48)));
      }
    }
    store(sums, a);
    store(sums + 8, b);
    store(sums + 16, c);
    store(sums + 24, d);
  }
}

/// See exponential.hpp.
POINTWRIGHT_AVX2 inline __m256 exponential(__m256 x) {
  const __m256 rounder = _mm256_set1_ps(exponent_rounder);
  const __m256 in_twos = _mm256_mul_ps(x, _mm256_set1_ps(std::numbers::log2e_v<float>));
  const __m256 whole = _mm256_sub_ps(_mm256_add_ps(in_twos, rounder), rounder);
  const __m256 f = _mm256_sub_ps(in_twos, whole);
  __m256 power = _mm256_set1_ps(power_series[0]);
  for (std::size_t i = 1; i < std::size(power_series); ++i)
    power = _mm256_add_ps(_mm256_mul_ps(power, f), _mm256_set1_ps(power_series[i]));
  power = _mm256_add_ps(_mm256_mul_ps(power, f), _mm256_set1_ps(std::numbers::ln2_v<float>));
  power = _mm256_add_ps(_mm256_mul_ps(power, f), _mm256_set1_ps(1.0F));
  const __m256i exponent =
      _mm256_slli_epi32(_mm256_add_epi32(_mm256_cvttps_epi32(whole), _mm256_set1_epi32(127)), 23);
  return _mm256_mul_ps(power, _mm256_castsi256_ps(exponent));
}

/// One over one plus e to the power of minus `sum`.
POINTWRIGHT_AVX2 inline __m256 logistic(__m256 sum) {
  const __m256 one = _mm256_set1_ps(1.0F);
  const __m256 negative = _mm256_sub_ps(_mm256_setzero_ps(), sum);
  const __m256 limited = _mm256_max_ps(_mm256_min_ps(negative, _mm256_set1_ps(exponent_limit)),
                                       _mm256_set1_ps(-exponent_limit));
  return _mm256_div_ps(one, _mm256_add_ps(one, exponential(limited)));
}

POINTWRIGHT_AVX2 void last(const LastLayer& layer, const std::int32_t* sums, std::size_t positions,
                           float* out) {
  static_assert(padded_outputs == 8);
  const __m256 scale = _mm256_set1_ps(layer.scale);
  const __m256i zero = _mm256_setzero_si256();
  for (std::size_t p = 0; p < positions; ++p, sums += second_layer, out += padded_outputs) {
    alignas(32) float values[second_layer];
    for (std::size_t j = 0; j < second_layer; j += 8)
      _mm256_store_ps(
          values + j,
          _mm256_mul_ps(_mm256_cvtepi32_ps(_mm256_max_epi32(load(sums + j), zero)), scale));
    __m256 parts[4] = {_mm256_setzero_ps(), _mm256_setzero_ps(), _mm256_setzero_ps(),
                       _mm256_setzero_ps()};
    for (std::size_t j = 0; j < second_layer; ++j)
      parts[j % 4] = _mm256_add_ps(
          parts[j % 4], _mm256_mul_ps(_mm256_broadcast_ss(values + j),
                                      _mm256_load_ps(&layer.weights[j * padded_outputs])));
    const __m256 sum =
        _mm256_add_ps(_mm256_add_ps(parts[0], parts[1]), _mm256_add_ps(parts[2], parts[3]));
    _mm256_store_ps(out, logistic(_mm256_add_ps(_mm256_load_ps(layer.bias.data()), sum)));
  }
}

/// With instructions for counting and finding bits, which all these processors have.
POINTWRIGHT_AVX2 void count(const Board& board, Side on_roll, Counts& counts) {
  count_sides(board, on_roll, counts);
}

}  // namespace

bool has_avx2() {
  return __builtin_cpu_supports("avx2") != 0 && __builtin_cpu_supports("bmi") != 0 &&
         __builtin_cpu_supports("bmi2") != 0 && __builtin_cpu_supports("lzcnt") != 0 &&
         __builtin_cpu_supports("popcnt") != 0;
}

const Kernels& avx2_kernels() {
  static const Kernels kernels{count, add_rows, first, second, last, "AVX2"};
  return kernels;
}

}  // namespace pointwright::judge
#endif

#include "judge/kernels.hpp"

#include <algorithm>

#if defined(__x86_64__)
#include <immintrin.h>
#endif

namespace pointwright::judge {
namespace {

void plain_first(const FirstLayer& layer, std::size_t width, std::int16_t* out) {
  constexpr std::size_t block = 16;
  const std::int32_t half = (std::int32_t{1} << static_cast<unsigned>(layer.shift)) / 2;
  for (std::size_t at = 0; at < width; at += block) {
    std::int32_t sums[block];
    for (std::size_t i = 0; i < block; ++i) sums[i] = layer.base[at + i];
    for (const std::int32_t* row : layer.rows) {
      for (std::size_t i = 0; i < block; ++i) sums[i] += row[at + i];
    }
    for (const MeasureRow& row : layer.measures) {
      const std::int16_t* pairs = row.pairs + 2 * at;
      for (std::size_t i = 0; i < block; ++i)
        sums[i] +=
            std::int32_t{row.first} * pairs[2 * i] + std::int32_t{row.second} * pairs[2 * i + 1];
    }
    for (std::size_t i = 0; i < block; ++i)
      out[at + i] =
          static_cast<std::int16_t>(std::clamp((sums[i] + half) >> layer.shift, 0, 32767));
  }
}

void plain_second(const std::int16_t* in, const std::int16_t* weights, std::size_t width,
                  std::int32_t* sums) {
  for (std::size_t i = 0; i < width; i += 2) {
    const std::int16_t* row = weights + i * second_layer;
    for (std::size_t j = 0; j < second_layer; ++j)
      sums[j] += std::int32_t{in[i]} * row[2 * j] + std::int32_t{in[i + 1]} * row[2 * j + 1];
  }
}

#if defined(__x86_64__)

#define POINTWRIGHT_AVX2 __attribute__((target("avx2")))

// The intrinsics take pointers to their own vector types.
// NOLINTBEGIN(*-reinterpret-cast)
POINTWRIGHT_AVX2 inline __m256i load(const std::int32_t* from) {
  return _mm256_loadu_si256(reinterpret_cast<const __m256i*>(from));
}
POINTWRIGHT_AVX2 inline __m256i load(const std::int16_t* from) {
  return _mm256_loadu_si256(reinterpret_cast<const __m256i*>(from));
}
template <class Number>
POINTWRIGHT_AVX2 inline void store(Number* to, __m256i vector) {
  _mm256_storeu_si256(reinterpret_cast<__m256i*>(to), vector);
}
// NOLINTEND(*-reinterpret-cast)

/// Two 16-bit numbers side by side in every 32 bits.
POINTWRIGHT_AVX2 inline __m256i both(std::int16_t first, std::int16_t second) {
  return _mm256_set1_epi32(static_cast<std::int32_t>(
      static_cast<std::uint16_t>(first) |
      (static_cast<std::uint32_t>(static_cast<std::uint16_t>(second)) << 16U)));
}

POINTWRIGHT_AVX2 void avx2_first(const FirstLayer& layer, std::size_t width, std::int16_t* out) {
  const __m256i half =
      _mm256_set1_epi32((std::int32_t{1} << static_cast<unsigned>(layer.shift)) / 2);
  const __m128i shift = _mm_cvtsi32_si128(layer.shift);
  const __m256i zero = _mm256_setzero_si256();
  for (std::size_t at = 0; at < width; at += 16) {
    __m256i low = load(layer.base + at);
    __m256i high = load(layer.base + at + 8);
    for (const std::int32_t* row : layer.rows) {
      low = _mm256_add_epi32(low, load(row + at));
      high = _mm256_add_epi32(high, load(row + at + 8));
    }
    for (const MeasureRow& row : layer.measures) {
      const __m256i counts = both(row.first, row.second);
      const std::int16_t* pairs = row.pairs + 2 * at;
      low = _mm256_add_epi32(low, _mm256_madd_epi16(counts, load(pairs)));
      high = _mm256_add_epi32(high, _mm256_madd_epi16(counts, load(pairs + 16)));
    }
    low = _mm256_sra_epi32(_mm256_add_epi32(low, half), shift);
    high = _mm256_sra_epi32(_mm256_add_epi32(high, half), shift);
    // Packing works on the halves of a vector apart; the permutation puts them in order again.
    const __m256i packed = _mm256_permute4x64_epi64(_mm256_packs_epi32(low, high), 0b11'01'10'00);
    store(out + at, _mm256_max_epi16(packed, zero));
  }
}

POINTWRIGHT_AVX2 void avx2_second(const std::int16_t* in, const std::int16_t* weights,
                                  std::size_t width, std::int32_t* sums) {
  static_assert(second_layer == 32);
  __m256i a = load(sums);
  __m256i b = load(sums + 8);
  __m256i c = load(sums + 16);
  __m256i d = load(sums + 24);
  for (std::size_t i = 0; i < width; i += 2) {
    const __m256i pair = both(in[i], in[i + 1]);
    const std::int16_t* row = weights + i * second_layer;
    a = _mm256_add_epi32(a, _mm256_madd_epi16(pair, load(row)));
    b = _mm256_add_epi32(b, _mm256_madd_epi16(pair, load(row + 16)));
    c = _mm256_add_epi32(c, _mm256_madd_epi16(pair, load(row + 32)));
    d = _mm256_add_epi32(d, _mm256_madd_epi16(pair, load(row + 48)));
  }
  store(sums, a);
  store(sums + 8, b);
  store(sums + 16, c);
  store(sums + 24, d);
}

#endif

}  // namespace

const Kernels& plain_kernels() {
  static constexpr Kernels kernels{plain_first, plain_second, "plain"};
  return kernels;
}

const Kernels& best_kernels() {
#if defined(__x86_64__)
  static constexpr Kernels wide{avx2_first, avx2_second, "AVX2"};
  static const bool can = __builtin_cpu_supports("avx2") != 0;
  if (can) return wide;
#endif
  return plain_kernels();
}

}  // namespace pointwright::judge

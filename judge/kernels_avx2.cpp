#include "judge/kernels_wide.hpp"

#if defined(__x86_64__)
#include <immintrin.h>

namespace pointwright::judge {
namespace {

#define POINTWRIGHT_AVX2 __attribute__((target("avx2")))

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
  return _mm256_set1_epi32(static_cast<std::int32_t>(
      static_cast<std::uint16_t>(two[0]) |
      (static_cast<std::uint32_t>(static_cast<std::uint16_t>(two[1])) << 16U)));
}

POINTWRIGHT_AVX2 void add_rows(const std::int32_t* base, std::span<const std::int32_t* const> rows,
                               std::size_t width, std::int32_t* sums) {
  for (std::size_t at = 0; at < width; at += 16) {
    __m256i low = load(base + at);
    __m256i high = load(base + at + 8);
    for (const std::int32_t* row : rows) {
      low = _mm256_add_epi32(low, load(row + at));
      high = _mm256_add_epi32(high, load(row + at + 8));
    }
    store(sums + at, low);
    store(sums + at + 8, high);
  }
}

POINTWRIGHT_AVX2 void first(const FirstLayer& layer, std::size_t width, std::int16_t* out) {
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
    for (std::size_t pair = 0; pair < measure_pair_count; ++pair) {
      const __m256i counts = both(layer.counts + 2 * pair);
      const std::int16_t* weights = layer.pairs + 2 * (pair * width + at);
      low = _mm256_add_epi32(low, _mm256_madd_epi16(counts, load(weights)));
      high = _mm256_add_epi32(high, _mm256_madd_epi16(counts, load(weights + 16)));
    }
    low = _mm256_sra_epi32(_mm256_add_epi32(low, half), shift);
    high = _mm256_sra_epi32(_mm256_add_epi32(high, half), shift);
    // Packing works on the halves of a vector apart; the permutation puts them in order again.
    const __m256i packed = _mm256_permute4x64_epi64(_mm256_packs_epi32(low, high), 0b11'01'10'00);
    store(out + at, _mm256_max_epi16(packed, zero));
  }
}

POINTWRIGHT_AVX2 void second(const std::int16_t* in, const std::int16_t* weights,
                             const std::int32_t* bias, std::size_t width, std::size_t positions,
                             std::int32_t* sums) {
  static_assert(second_layer == 32);
  for (std::size_t p = 0; p < positions; ++p, in += width, sums += second_layer) {
    __m256i a = load(bias);
    __m256i b = load(bias + 8);
    __m256i c = load(bias + 16);
    __m256i d = load(bias + 24);
    for (std::size_t i = 0; i < width; i += 2) {
      const __m256i pair = both(in + i);
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
}

}  // namespace

bool has_avx2() {
  return __builtin_cpu_supports("avx2") != 0;
}

const Kernels& avx2_kernels() {
  static const Kernels kernels{count_measures_plainly, add_rows, first, second,
                               plain_kernels().last,   "AVX2"};
  return kernels;
}

}  // namespace pointwright::judge
#endif

#include "judge/kernels_wide.hpp"

#if defined(__x86_64__)
#include "judge/avx512.hpp"
#include "judge/sight.hpp"

namespace pointwright::judge {
namespace {

constexpr __mmask32 camp_mask = (1U << 26U) - 1;

/// Both camps, one in each half; the bytes behind a camp are nothing.
struct Camps {
  __m256i mine;
  __m256i theirs;
};

/// The bytes in the opposite order.
POINTWRIGHT_AVX512 inline __m256i turned_round(__m256i bytes) {
  const __m256i order = _mm256_broadcastsi128_si256(
      _mm_set_epi8(0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15));
  return _mm256_permute4x64_epi64(_mm256_shuffle_epi8(bytes, order), 0b01'00'11'10);
}

POINTWRIGHT_AVX512 inline Spread spread_of(__m256i camp) {
  const __m256i one = _mm256_set1_epi8(1);
  return {_cvtmask32_u32(_mm256_test_epi8_mask(camp, camp)),
          _cvtmask32_u32(_mm256_cmpgt_epu8_mask(camp, one))};
}

POINTWRIGHT_AVX512 inline Spread without_off(const Spread& spread) {
  return {spread.any & ~Places{1}, spread.two & ~Places{1}};
}

/// As the other side counts: place p becomes 25 - p.
POINTWRIGHT_AVX512 inline Spread mirrored_spread_of(__m256i camp) {
  const Spread turned = spread_of(turned_round(camp));
  return {turned.any >> 6U, turned.two >> 6U};
}

/// What a side's shots are, one throw in each lane: the checkers hit there, as places.
struct Hits {
  __m512i by_two;     ///< the 15 throws that are no doubles
  __m512i by_double;  ///< the six doubles
};

/// The higher and the lower die of the throws that are no doubles, then nothing: a shift by 32
/// leaves nothing.
POINTWRIGHT_AVX512 inline __m512i high_dice() {
  return _mm512_set_epi32(32, 6, 6, 6, 6, 6, 5, 5, 5, 5, 4, 4, 4, 3, 3, 2);
}
POINTWRIGHT_AVX512 inline __m512i low_dice() {
  return _mm512_set_epi32(32, 5, 4, 3, 2, 1, 4, 3, 2, 1, 3, 2, 1, 2, 1, 1);
}
POINTWRIGHT_AVX512 inline __m512i double_dice() {
  return _mm512_set_epi32(32, 32, 32, 32, 32, 32, 32, 32, 32, 32, 6, 5, 4, 3, 2, 1);
}

POINTWRIGHT_AVX512 inline __m512i all_lanes(Places places) {
  return _mm512_set1_epi32(static_cast<int>(places));
}

/// The same as the plain `Shots`, all throws at once.
POINTWRIGHT_AVX512 inline Hits hits_of(const Sight& sight) {
  const __m512i blots = all_lanes(can_hit(sight) ? sight.blots : 0);
  const __m512i open = all_lanes(points_mask & ~sight.blocked);
  const __m512i from = all_lanes(sight.on_bar == 0 ? sight.own : bar_bit);
  const __m512i a = high_dice();
  const __m512i b = low_dice();
  const __m512i by_a = _mm512_and_si512(_mm512_srlv_epi32(from, a), open);
  const __m512i by_b = _mm512_and_si512(_mm512_srlv_epi32(from, b), open);
  __m512i two = _mm512_or_si512(by_a, by_b);
  if (sight.on_bar <= 1) {
    // With one on the bar the second die is free for any checker once the first has brought it in.
    const __m512i rest = all_lanes(sight.on_bar == 0 ? 0 : sight.own & ~bar_bit);
    const __m512i then_b =
        _mm512_maskz_srlv_epi32(_mm512_test_epi32_mask(by_a, by_a), _mm512_or_si512(rest, by_a), b);
    const __m512i then_a =
        _mm512_maskz_srlv_epi32(_mm512_test_epi32_mask(by_b, by_b), _mm512_or_si512(rest, by_b), a);
    two = _mm512_or_si512(two, _mm512_or_si512(then_a, then_b));
  }

  const __m512i die = double_dice();
  __m512i reached = _mm512_and_si512(_mm512_srlv_epi32(from, die), open);
  const __mmask16 enters = _mm512_test_epi32_mask(reached, reached);
  __m512i all = reached;
  if (sight.on_bar > 0) reached = _mm512_or_si512(reached, all_lanes(sight.own & ~bar_bit));
  for (int i = sight.on_bar > 0 ? sight.on_bar : 1; i < 4; ++i) {
    reached = _mm512_and_si512(_mm512_srlv_epi32(reached, die), open);
    all = _mm512_or_si512(all, reached);
  }
  return {_mm512_and_si512(two, blots), _mm512_maskz_and_epi32(enters, all, blots)};
}

/// The highest place of each set, 0 of none: the pips that a checker loses when it is hit there.
POINTWRIGHT_AVX512 inline __m512i highest(__m512i sets) {
  return _mm512_subs_epu16(_mm512_set1_epi32(31), _mm512_lzcnt_epi32(sets));
}

POINTWRIGHT_AVX512 inline int lanes_used(__m512i lanes) {
  return std::popcount(_cvtmask16_u32(_mm512_test_epi32_mask(lanes, lanes)));
}

POINTWRIGHT_AVX512 inline int ways_of(const Hits& hits) {
  return 2 * lanes_used(hits.by_two) + lanes_used(hits.by_double);
}

/// Eight sums that make up the pips lost.
POINTWRIGHT_AVX512 inline __m256i lost_by(const Hits& hits) {
  const __m512i lost =
      _mm512_add_epi32(_mm512_slli_epi32(highest(hits.by_two), 1), highest(hits.by_double));
  return _mm256_add_epi32(_mm512_castsi512_si256(lost), _mm512_extracti64x4_epi64(lost, 1));
}

POINTWRIGHT_AVX512 inline __m512i one_in_each_half(__m256i mine, __m256i theirs) {
  return _mm512_inserti64x4(_mm512_castsi256_si512(mine), theirs, 1);
}

/// The place of each byte of a camp.
POINTWRIGHT_AVX512 inline __m512i places() {
  return _mm512_broadcast_i64x4(_mm256_set_epi8(0, 0, 0, 0, 0, 0, 25, 24, 23, 22, 21, 20, 19, 18,
                                                17, 16, 15, 14, 13, 12, 11, 10, 9, 8, 7, 6, 5, 4, 3,
                                                2, 1, 0));
}
/// The pips that a checker there can spare.
POINTWRIGHT_AVX512 inline __m512i spare_pips() {
  return _mm512_broadcast_i64x4(_mm256_set_epi8(0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 12, 11, 10,
                                                9, 8, 7, 6, 5, 4, 3, 2, 1, 0, 0, 0, 0, 0, 0, 0));
}

/// Four sums for each side: pips, pips to spare, checkers engaged, and pips lost.
struct FourSums {
  alignas(32) std::array<std::int32_t, 8> of;  ///< mine, then theirs
};

POINTWRIGHT_AVX512 inline FourSums add_up(const Camps& camps, const Sight& mine,
                                          const Sight& theirs, __m256i my_lost,
                                          __m256i their_lost) {
  const __m512i zero = _mm512_setzero_si512();
  const __m512i both = one_in_each_half(camps.mine, camps.theirs);
  const __m512i rears = one_in_each_half(_mm256_set1_epi8(static_cast<char>(mine.their_rear)),
                                         _mm256_set1_epi8(static_cast<char>(theirs.their_rear)));
  const __m512i behind =
      _mm512_maskz_mov_epi8(_mm512_cmpgt_epu8_mask(places(), rears), _mm512_set1_epi8(1));
  const __m512i pips = _mm512_dpbusd_epi32(zero, both, places());
  const __m512i spare = _mm512_dpbusd_epi32(zero, both, spare_pips());
  const __m512i engaged = _mm512_dpbusd_epi32(zero, both, behind);
  const __m512i lost = one_in_each_half(my_lost, their_lost);
  // Packing and adding neighbours twice leaves the four sums in each quarter of the vector.
  const __m512i ones = _mm512_set1_epi16(1);
  const __m512i two = _mm512_madd_epi16(_mm512_packs_epi32(pips, spare), ones);
  const __m512i other_two = _mm512_madd_epi16(_mm512_packs_epi32(engaged, lost), ones);
  const __m512i four = _mm512_madd_epi16(_mm512_packs_epi32(two, other_two), ones);
  const __m512i halves = _mm512_add_epi32(four, _mm512_shuffle_i64x2(four, four, 0b10'11'00'01));
  FourSums sums;
  _mm256_store_si256(reinterpret_cast<__m256i*>(sums.of.data()),  // NOLINT(*-reinterpret-cast)
                     _mm512_castsi512_si256(_mm512_shuffle_i64x2(halves, halves, 0b00'00'10'00)));
  return sums;
}

}  // namespace

POINTWRIGHT_AVX512 void count_measures_avx512(const Board& board, Side on_roll, Counts& counts) {
  const Camp& my_camp = board.of(on_roll);
  const Camp& their_camp = board.of(opponent(on_roll));
  const Camps camps{_mm256_maskz_loadu_epi8(camp_mask, my_camp.data()),
                    _mm256_maskz_loadu_epi8(camp_mask, their_camp.data())};
  const Spread mine = without_off(spread_of(camps.mine));
  const Spread theirs = without_off(spread_of(camps.theirs));
  const Sight my_sight = look(my_camp[bar_place], mine, theirs, mirrored_spread_of(camps.theirs));
  const Sight their_sight =
      look(their_camp[bar_place], theirs, mine, mirrored_spread_of(camps.mine));
  const Hits my_hits = hits_of(my_sight);
  const Hits their_hits = hits_of(their_sight);
  const FourSums sums = add_up(camps, my_sight, their_sight, lost_by(my_hits), lost_by(their_hits));
  const auto& of = sums.of;
  write_side(my_sight, {of[0], of[1], of[2], ways_of(my_hits), of[3]}, counts.data());
  write_side(their_sight, {of[4], of[5], of[6], ways_of(their_hits), of[7]},
             counts.data() + measures_per_side);
}

}  // namespace pointwright::judge
#endif

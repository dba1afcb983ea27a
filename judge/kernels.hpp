#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>

#include "judge/net.hpp"

namespace pointwright::judge {

inline constexpr std::size_t measure_pair_count = measure_count / 2;

/// What goes into the first layer: sums so far, rows, and the measures with their rows.
struct FirstLayer {
  const std::int32_t* base = nullptr;
  std::span<const std::int32_t* const> rows;
  const std::int16_t* counts = nullptr;  ///< the measures, [measure_count]
  const std::int16_t* pairs = nullptr;   ///< their weights, [pair of measures][hidden][2]
  int shift = 0;                         ///< from the sums to what the second layer takes
};

/// The work of a net, done in one of several ways that give the same numbers: integers add up to
/// the same in any order, and the last layer adds in one fixed order.
///
/// Preconditions: width is a multiple of 16; all rows, weights and buffers begin at multiples of
/// `vector_bytes`.
struct Kernels {
  /// Counts the measures.
  void (*count)(const Board& board, Side on_roll, Counts& counts);
  /// Adds up rows: sums = base + rows.
  void (*add_rows)(const std::int32_t* base, std::span<const std::int32_t* const> rows,
                   std::size_t width, std::int32_t* sums);
  /// Adds up the first layer and writes `width` rectified numbers, rounded and cut to 16 bits.
  void (*first)(const FirstLayer& layer, std::size_t width, std::int16_t* out);
  /// For each of `positions` rows of `width` inputs: sums = bias + inputs times weights, which are
  /// [width / 2][second_layer][2].
  void (*second)(const std::int16_t* in, const std::int16_t* weights, const std::int32_t* bias,
                 std::size_t width, std::size_t positions, std::int32_t* sums);
  /// For each of `positions` rows of sums of the second layer: the chances, [padded_outputs].
  void (*last)(const LastLayer& layer, const std::int32_t* sums, std::size_t positions, float* out);
  const char* name;
};

/// Plain C++, the reference.
const Kernels& plain_kernels();

/// The fastest that this machine can run, found out at first use.
const Kernels& best_kernels();

/// All that this machine can run, the plain ones first.
std::span<const Kernels* const> all_kernels();

/// The measures counted in plain C++.
void count_measures_plainly(const Board& board, Side on_roll, Counts& counts);

}  // namespace pointwright::judge

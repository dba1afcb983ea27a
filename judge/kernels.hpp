#pragma once

#include <cstddef>
#include <cstdint>
#include <span>

#include "judge/net.hpp"

namespace pointwright::judge {

/// A row of the first layer to be added, or two rows to be added so many times each.
struct MeasureRow {
  const std::int16_t* pairs;  ///< [hidden][2]
  std::int16_t first;
  std::int16_t second;
};

/// What goes into the first layer: sums so far, rows, and pairs of rows with their counts.
struct FirstLayer {
  const std::int32_t* base = nullptr;
  std::span<const std::int32_t* const> rows;
  std::span<const MeasureRow> measures;
  int shift = 0;  ///< from the sums to what the second layer takes
};

/// The two integer layers of a net. Every version gives the same numbers, since integers add up to
/// the same in any order.
struct Kernels {
  /// Adds up the first layer and writes `width` rectified numbers, rounded and cut to 16 bits.
  /// Precondition: width is a multiple of 16.
  void (*first)(const FirstLayer& layer, std::size_t width, std::int16_t* out);
  /// Adds inputs times weights ([width / 2][second_layer][2]) to `sums`.
  void (*second)(const std::int16_t* in, const std::int16_t* weights, std::size_t width,
                 std::int32_t* sums);
  const char* name;
};

/// Plain C++, the reference.
const Kernels& plain_kernels();

/// The fastest that this machine can run, found out at first use.
const Kernels& best_kernels();

}  // namespace pointwright::judge

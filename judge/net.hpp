#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "judge/aligned.hpp"
#include "judge/chances.hpp"
#include "judge/features.hpp"
#include "rules/board.hpp"
#include "rules/result.hpp"

namespace pointwright::judge {

/// How a net sees the checkers: four units for each place of each side.
inline constexpr int units_per_place = 4;
inline constexpr int places_per_side = 26;
inline constexpr int unit_count = 2 * places_per_side * units_per_place;
inline constexpr int input_count = unit_count + measure_count;
inline constexpr int second_layer = 32;
inline constexpr int output_count = 5;
inline constexpr std::size_t padded_outputs = 8;  ///< in memory, to fill a vector
inline constexpr std::size_t widest_hidden = 512;

/// The four units of a place that holds `count` checkers. Constant, so that the trainer's graphics
/// card computes them with this very function.
constexpr std::array<float, units_per_place> units(int place, int count) {
  const auto n = static_cast<float>(count);
  if (place == off_place)
    return {count >= 1 ? 1.0F : 0.0F, std::min(n, 5.0F) / 5, std::clamp(n - 5, 0.0F, 5.0F) / 5,
            std::clamp(n - 10, 0.0F, 5.0F) / 5};
  return {count >= 1 ? 1.0F : 0.0F, count >= 2 ? 1.0F : 0.0F, count >= 3 ? 1.0F : 0.0F,
          count > 3 ? (n - 3) / 2 : 0.0F};
}

/// The numbers of a net: inputs -> first hidden layer (rectified) -> 32 (rectified) -> 5 chances
/// (logistic). Matrices are row by row, one row for each input of the layer.
struct Weights {
  int hidden = 128;
  std::vector<float> first;        ///< input_count x hidden
  std::vector<float> first_bias;   ///< hidden
  std::vector<float> second;       ///< hidden x second_layer
  std::vector<float> second_bias;  ///< second_layer
  std::vector<float> third;        ///< second_layer x output_count
  std::vector<float> third_bias;   ///< output_count

  explicit Weights(int hidden_size = 128);
};

/// Why a net file cannot be used.
struct NetFault {
  std::string_view id;  ///< "net-not-a-net", "net-version", "net-size", "net-damaged"
  std::string reason;
};

/// Writes a net: magic, version, dimensions, numbers as 16-bit integers with one scale for each
/// matrix, and a checksum of everything before it.
std::vector<std::uint8_t> to_bytes(const Weights& weights);
Result<Weights, NetFault> weights_from_bytes(std::span<const std::uint8_t> bytes);

/// Memory for valuing one position after another with one net: what the checkers of one side bring
/// to the first layer is kept while that side stays as it is, as it does from one play of the
/// other to the next. The values do not depend on it.
struct NetScratch {
  const void* net = nullptr;
  Camp camp;
  alignas(vector_bytes) std::array<std::int32_t, widest_hidden> sums;
};

/// So many positions are valued together: the weights of the second layer are then loaded for four
/// at a time.
inline constexpr std::size_t net_group = 8;

/// The last layer, in floating point.
struct LastLayer {
  float scale = 1;  ///< from the sums of the second layer to their true size
  /// [second layer][outputs]
  alignas(vector_bytes) std::array<float, second_layer * padded_outputs> weights;
  alignas(vector_bytes) std::array<float, padded_outputs> bias;
};

struct Kernels;

/// A net made ready for use: the rows of the first layer are added up beforehand for each number of
/// checkers on each place, so that a position costs one row for each occupied place. The first two
/// layers are integers, so that the values are the same in any order of adding, on any machine and
/// with vectors of any width; chances differ from those of the weights by less than 0.002, even
/// on boards that no game would reach (tests/judge/net_test.cpp).
class Net {
 public:
  explicit Net(const Weights& weights);
  /// The same with chosen kernels, for tests.
  Net(const Weights& weights, const Kernels& kernels);

  /// Chances of the side on roll.
  [[nodiscard]] Chances evaluate(const Board& board, Side on_roll) const;
  /// The same, faster for positions in which the side on roll stays as it is.
  [[nodiscard]] Chances evaluate(const Board& board, Side on_roll, NetScratch& scratch) const;
  /// The same for several positions, faster still: `chances` has a place for each board.
  /// Precondition: at most `net_group` boards.
  void evaluate(std::span<const Board* const> boards, Side on_roll, NetScratch& scratch,
                Chances* chances) const;

 private:
  static constexpr int most_on_place = 16;  // 0 to 15

  /// The rows of the first layer for the places that a side holds.
  struct Rows {
    std::array<const std::int32_t*, places_per_side> of;
    std::size_t count = 0;
  };
  [[nodiscard]] Rows rows(std::size_t side, const Camp& camp) const;
  void first_layer(const Board& board, Side on_roll, NetScratch& scratch,
                   std::int16_t* hidden) const;

  const Kernels* kernels_;
  std::size_t hidden_;
  int first_shift_ = 0;               ///< from the first layer's sums to the second's inputs
  AlignedVector<std::int32_t> rows_;  ///< [side][place][count][hidden]
  AlignedVector<std::int16_t> measure_pairs_;  ///< [pair of measures][hidden][2]
  AlignedVector<std::int32_t> first_bias_;
  AlignedVector<std::int16_t> second_;  ///< [pair of hidden][second_layer][2]
  alignas(vector_bytes) std::array<std::int32_t, second_layer> second_bias_;
  LastLayer last_;
};

}  // namespace pointwright::judge

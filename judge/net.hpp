#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

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

/// The four units of a place that holds `count` checkers.
std::array<float, units_per_place> units(int place, int count);

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

/// A net made ready for use: the rows of the first layer are added up beforehand for each number of
/// checkers on each place, so that a position costs one row for each occupied place.
class Net {
 public:
  explicit Net(const Weights& weights);

  /// Chances of the side on roll. Sums are added up in one fixed order and without fused
  /// arithmetic, so that vectors of any width give the same numbers.
  [[nodiscard]] Chances evaluate(const Board& board, Side on_roll) const;

 private:
  static constexpr int most_on_place = 16;  // 0 to 15

  int hidden_;
  std::vector<float> rows_;  ///< [side][place][count][hidden]
  std::vector<float> measure_rows_;
  std::vector<float> first_bias_;
  std::vector<float> second_;
  std::array<float, second_layer> second_bias_;
  std::array<float, second_layer * 8> third_;  ///< padded to 8 outputs
  std::array<float, 8> third_bias_;
};

}  // namespace pointwright::judge

#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "chance/bearoff_index.hpp"

namespace pointwright {

/// Every position that each of the 21 rolls can lead to, for every position of a family.
class BearoffPlays {
 public:
  explicit BearoffPlays(const BearoffFamily& family);

  /// The distinct ranks after the plays of a roll, ascending. `roll` counts as in all_rolls().
  [[nodiscard]] std::span<const std::uint32_t> after(std::uint32_t rank, std::size_t roll) const {
    const std::size_t list = std::size_t{rank} * 21 + roll;
    return std::span(ranks_).subspan(starts_[list], starts_[list + 1] - starts_[list]);
  }
  [[nodiscard]] std::size_t bytes() const {
    return (starts_.size() + ranks_.size()) * sizeof(std::uint32_t);
  }

 private:
  std::vector<std::uint32_t> starts_;
  std::vector<std::uint32_t> ranks_;
};

}  // namespace pointwright

#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

#include "chance/three_checker_plays.hpp"

namespace pointwright {

/// A value known to lie in [low, high].
struct Bounds {
  float low = 0;
  float high = 0;
  [[nodiscard]] float gap() const { return high - low; }
  [[nodiscard]] float middle() const { return (low + high) / 2; }
  friend Bounds operator-(Bounds b) { return {-b.high, -b.low}; }
};

inline Bounds greater(Bounds a, Bounds b) {
  return {std::max(a.low, b.low), std::max(a.high, b.high)};
}

/// Several values of one pair, kept together: they are always read together.
template <std::size_t Planes>
using Measures = std::array<Bounds, Planes>;

/// Values for each pair of sides: [the side that has just moved][the side on roll], seen by the
/// first.
template <std::size_t Planes>
class PairBounds {
 public:
  /// Pairs that may be read beyond the end of a row, so that loops can take several at a time.
  static constexpr std::size_t padding = 4;

  PairBounds() = default;
  /// Gives every pair the same bounds, but a side that is off has won.
  PairBounds(std::uint32_t size, Bounds anything) : rows_(size) {
    Measures<Planes> unknown;
    unknown.fill(anything);
    Measures<Planes> won;
    won.fill({1, 1});
    for (auto& row : rows_) row.assign(size + padding, unknown);
    rows_[0].assign(size + padding, won);
  }
  [[nodiscard]] const Measures<Planes>* row(std::uint32_t moved) const {
    return rows_[moved].data();
  }
  [[nodiscard]] const Measures<Planes>& at(std::uint32_t moved, std::uint32_t on_roll) const {
    return rows_[moved][on_roll];
  }
  [[nodiscard]] Measures<Planes>& at(std::uint32_t moved, std::uint32_t on_roll) {
    return rows_[moved][on_roll];
  }

  /// Makes one value of each pair's, and another, and gives back the memory row by row.
  template <class First, class Second>
  [[nodiscard]] std::pair<PairBounds<1>, PairBounds<1>> split(First first_of, Second second_of) {
    std::pair<PairBounds<1>, PairBounds<1>> parts;
    for (auto& row : rows_) {
      auto& first = parts.first.rows_.emplace_back(row.size());
      auto& second = parts.second.rows_.emplace_back(row.size());
      for (std::size_t i = 0; i < row.size(); ++i) {
        first[i] = {first_of(row[i])};
        second[i] = {second_of(row[i])};
      }
      row = {};
    }
    return parts;
  }

 private:
  template <std::size_t>
  friend class PairBounds;
  std::vector<std::vector<Measures<Planes>>> rows_;  ///< apart, so that each can be given back
};

/// The waiting sides that a side on roll is still to be solved against.
class OpenPairs {
 public:
  /// Opens every pair that can stand on a board with checkers left on both sides.
  explicit OpenPairs(const ThreeCheckers& index) : size_(index.size()), open_(size_ * size_) {
    for (std::uint32_t on_roll = 1; on_roll < index.size(); ++on_roll) {
      for (std::uint32_t waiting = 1; waiting < index.size(); ++waiting) {
        if (!index.fit(on_roll, waiting)) continue;
        open_[on_roll * size_ + waiting] = true;
        ++count_;
      }
    }
  }
  [[nodiscard]] bool has(std::uint32_t on_roll, std::uint32_t waiting) const {
    return open_[on_roll * size_ + waiting];
  }
  void close(std::uint32_t on_roll, std::uint32_t waiting) {
    open_[on_roll * size_ + waiting] = false;
    --count_;
  }
  [[nodiscard]] std::size_t count() const { return count_; }

 private:
  std::size_t size_;
  std::vector<bool> open_;
  std::size_t count_ = 0;
};

}  // namespace pointwright

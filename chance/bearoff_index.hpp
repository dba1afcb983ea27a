#pragma once

#include <array>
#include <cstdint>

#include "rules/board.hpp"

namespace pointwright {

/// Numbers the ways in which one side can hold at most `checkers` checkers on its points 1 to
/// `points`, the others being off. The order is by the farthest point first, so that every play
/// leads to a smaller number and a table filled in this order never looks ahead.
class BearoffFamily {
 public:
  static constexpr int most_points = bar_place;
  static constexpr int most_checkers = checkers_per_side;

  /// Point 25 stands for the bar: a family of 25 points takes in checkers that were hit.
  /// Precondition: 1 <= points <= 25, 1 <= checkers <= 15, and size() fits in 32 bits.
  BearoffFamily(int points, int checkers);

  [[nodiscard]] int points() const { return points_; }
  [[nodiscard]] int checkers() const { return checkers_; }
  /// How many there are: C(points + checkers, points). Rank 0 has every checker off.
  [[nodiscard]] std::uint32_t size() const { return size_; }

  /// Whether a side's checkers are in the family: none beyond `points`, and not more
  /// than `checkers` left.
  [[nodiscard]] bool contains(const Camp& camp) const;

  /// The number of a side's position. Precondition: contains(camp).
  [[nodiscard]] std::uint32_t rank(const Camp& camp) const {
    std::uint32_t rank = 0;
    int left = checkers_;
    for (int point = points_; point >= 1; --point) {
      const int here = camp[static_cast<std::size_t>(point)];
      rank += ways(point, left) - ways(point, left - here);
      left -= here;
    }
    return rank;
  }

  /// The position of that number; checkers off are counted up to fifteen in all.
  /// Precondition: rank < size().
  [[nodiscard]] Camp camp(std::uint32_t rank) const;

 private:
  /// C(checkers + points, points): ways to hold at most `checkers` on `points` points.
  [[nodiscard]] std::uint32_t ways(int points, int checkers) const {
    return ways_[static_cast<std::size_t>(points)][static_cast<std::size_t>(checkers)];
  }

  int points_;
  int checkers_;
  std::uint32_t size_;
  std::array<std::array<std::uint32_t, most_checkers + 1>, most_points + 1> ways_{};
};

}  // namespace pointwright

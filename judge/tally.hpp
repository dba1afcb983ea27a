#pragma once

#include <array>
#include <cmath>
#include <cstdint>
#include <vector>

#include "judge/chances.hpp"

namespace pointwright::judge {

/// Chances in the order of their members, for sums.
constexpr std::array<double, 5> in_doubles(const Chances& chances) {
  return {static_cast<double>(chances.win), static_cast<double>(chances.win_gammon),
          static_cast<double>(chances.win_backgammon), static_cast<double>(chances.lose_gammon),
          static_cast<double>(chances.lose_backgammon)};
}

/// A sum of numbers rounded to 2^-24 and of their squares. Both are kept as integers, so that sums
/// of parts, added in any order, are the sum of the whole to the last bit.
struct Moments {
  std::int64_t sum = 0;
  /// Squares, in two parts that cannot overflow: high * 2^32 + low, low < 2^32 once settled.
  std::uint64_t squares_high = 0;
  std::uint64_t squares_low = 0;

  static constexpr double unit = 1.0 / (1 << 24);
  /// Numbers beyond this are cut: far outside what a game can be worth at a cube of 64.
  static constexpr double largest = 255;

  void add(double value);
  void add(const Moments& other);

  /// Mean of `trials` numbers. Precondition: trials > 0.
  [[nodiscard]] double mean(std::uint64_t trials) const;
  /// Standard error of the mean: the root of the sample variance over the number of trials.
  /// Infinite for fewer than two trials.
  [[nodiscard]] double error(std::uint64_t trials) const;

  friend bool operator==(const Moments&, const Moments&) = default;
};

/// What the trials of one start came to.
struct StartTally {
  Moments equity;
  std::array<Moments, 5> chances;  ///< in the order of Chances
  friend bool operator==(const StartTally&, const StartTally&) = default;
};

/// What a rollout has found so far, for several starts that were given the same dice: it can be
/// merged with that of other trials of the same starts, exactly.
struct Tally {
  std::uint64_t trials = 0;
  std::vector<StartTally> starts;
  std::vector<Moments> differences;  ///< equities of start i less start j, i < j, row by row

  explicit Tally(std::size_t start_count = 1);

  /// Adds one trial: the equity and the chances of each start.
  struct Outcome {
    double equity = 0;
    std::array<double, 5> chances{};
  };
  void add(const std::vector<Outcome>& outcomes);

  /// Adds the trials of another tally of the same starts. Precondition: as many starts.
  void merge(const Tally& other);

  /// The tally of some of the starts, which stand in rising order.
  [[nodiscard]] Tally only(const std::vector<std::size_t>& kept) const;

  [[nodiscard]] const Moments& difference(std::size_t first, std::size_t second) const;
  [[nodiscard]] double equity(std::size_t start) const { return starts[start].equity.mean(trials); }
  [[nodiscard]] double error(std::size_t start) const { return starts[start].equity.error(trials); }
  [[nodiscard]] Chances chances(std::size_t start) const;
  /// How much more `a` is worth than `b`, and the standard error of that, dice being the same.
  [[nodiscard]] double lead(std::size_t a, std::size_t b) const { return equity(a) - equity(b); }
  [[nodiscard]] double lead_error(std::size_t a, std::size_t b) const;
  /// The start that is worth most; the earlier one where equal.
  [[nodiscard]] std::size_t best() const;

  friend bool operator==(const Tally&, const Tally&) = default;
};

}  // namespace pointwright::judge

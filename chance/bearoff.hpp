#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

#include "chance/bearoff_index.hpp"
#include "chance/table_build.hpp"
#include "rules/roll.hpp"

namespace pointwright {

/// How many rolls a side needs to bear off: `chances[i]` is the chance of needing exactly
/// `first + i`. A view into a table, valid as long as the table.
template <class Real>
struct RollSpread {
  int first = 0;
  std::span<const Real> chances;

  /// The chance of needing exactly `rolls`.
  [[nodiscard]] double exactly(int rolls) const {
    const int i = rolls - first;
    if (i < 0 || i >= static_cast<int>(chances.size())) return 0.0;
    return static_cast<double>(chances[static_cast<std::size_t>(i)]);
  }
  /// The most rolls that have a stored chance.
  [[nodiscard]] int last() const { return first + static_cast<int>(chances.size()) - 1; }
};

/// The number of rolls to bear off, alone, for every position of a family, each roll played so
/// that the mean number of rolls is least.
///
/// With Real = double the chances are exact to rounding (about 1e-15). With Real = float they are
/// rounded to 1e-7 and chances under 1e-9 are left out; means stay exact to rounding.
template <class Real>
class OneSidedTable {
 public:
  /// Fills the table, in the order of the ranks. A `host` that stops the build leaves a table for
  /// which complete() is false and nothing else may be asked.
  OneSidedTable(int points, int checkers, const BuildHost& host = {});

  [[nodiscard]] bool complete() const { return complete_; }
  [[nodiscard]] const BearoffFamily& family() const { return family_; }

  /// Mean number of rolls to bear off. Precondition: rank < family().size().
  [[nodiscard]] double mean(std::uint32_t rank) const { return means_[rank]; }
  [[nodiscard]] RollSpread<Real> spread(std::uint32_t rank) const {
    const std::size_t begin = starts_[rank];
    return {firsts_[rank], std::span(chances_).subspan(begin, starts_[rank + 1] - begin)};
  }
  /// Variance of the number of rolls.
  [[nodiscard]] double variance(std::uint32_t rank) const;

  /// The rank after `roll` is played for the least mean. Equal means: the first found, larger die
  /// and farther checkers first.
  [[nodiscard]] std::uint32_t best_after(std::uint32_t rank, Roll roll) const;

  /// Memory held, in bytes.
  [[nodiscard]] std::size_t bytes() const;

 private:
  BearoffFamily family_;
  bool complete_ = false;
  std::vector<double> means_;
  std::vector<std::uint8_t> firsts_;
  std::vector<std::uint32_t> starts_;  ///< one more than there are positions
  std::vector<Real> chances_;
};

extern template class OneSidedTable<float>;
extern template class OneSidedTable<double>;

/// The best chance of being off within a number of rolls, for every position of a family: here each
/// roll is played for that chance, knowing how many rolls remain, and not for the mean.
class WithinTable {
 public:
  /// Fills the table for 0 to `most_rolls` rolls.
  WithinTable(int points, int checkers, int most_rolls);

  [[nodiscard]] const BearoffFamily& family() const { return family_; }
  [[nodiscard]] int most_rolls() const { return static_cast<int>(layers_.size()) - 1; }
  /// The chance, exact to rounding. Precondition: rank < family().size(), 0 <= rolls <=
  /// most_rolls().
  [[nodiscard]] double chance(std::uint32_t rank, int rolls) const {
    return layers_[static_cast<std::size_t>(rolls)][rank];
  }

 private:
  BearoffFamily family_;
  std::vector<std::vector<double>> layers_;
};

/// All 54,264 positions of up to fifteen checkers in the home board. Built at first use.
const OneSidedTable<double>& home_table();

/// Up to fifteen checkers on the points 1 to 10: 3,268,760 positions. Built at first use.
const OneSidedTable<float>& outfield_table();

/// Pips of a mean roll: the pips still to be moved, wastage included, are the mean number of rolls
/// times this (common practice; exact: doubles count four times).
inline constexpr double mean_roll_pips = 49.0 / 6.0;

}  // namespace pointwright

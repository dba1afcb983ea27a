#pragma once

#include <cstddef>
#include <vector>

namespace pointwright::film {

/// A square table of whole costs.
class CostTable {
 public:
  explicit CostTable(std::size_t size, long cost = 0) : size_(size), costs_(size * size, cost) {}
  [[nodiscard]] std::size_t size() const { return size_; }
  [[nodiscard]] long& at(std::size_t row, std::size_t column) {
    return costs_[row * size_ + column];
  }
  [[nodiscard]] long at(std::size_t row, std::size_t column) const {
    return costs_[row * size_ + column];
  }

 private:
  std::size_t size_;
  std::vector<long> costs_;
};

/// The column that each row is given, no two the same, so that the costs add up to the least.
/// The method of successive shortest paths with potentials (H. W. Kuhn, "The Hungarian Method for
/// the Assignment Problem", Naval Research Logistics Quarterly 2, 1955; in the cubic form that is
/// common practice). Among equal assignments the choice is fixed. Costs may be negative; their sums
/// must fit.
std::vector<std::size_t> cheapest_assignment(const CostTable& costs);

/// What an assignment costs.
long cost_of(const CostTable& costs, const std::vector<std::size_t>& assignment);

}  // namespace pointwright::film

#include "film/assignment.hpp"

#include <limits>

namespace pointwright::film {

std::vector<std::size_t> cheapest_assignment(const CostTable& costs) {
  // Rows and columns count from 1; 0 stands for "none". `potential` prices make every reduced cost
  // of the rows that are placed non-negative and zero where they are placed.
  const std::size_t n = costs.size();
  constexpr long infinite = std::numeric_limits<long>::max() / 4;
  std::vector<long> row_price(n + 1, 0);
  std::vector<long> column_price(n + 1, 0);
  std::vector<std::size_t> row_of(n + 1, 0);
  std::vector<std::size_t> came_from(n + 1, 0);
  for (std::size_t row = 1; row <= n; ++row) {
    row_of[0] = row;
    std::size_t column = 0;
    std::vector<long> distance(n + 1, infinite);
    std::vector<bool> settled(n + 1, false);
    while (row_of[column] != 0) {
      settled[column] = true;
      const std::size_t here = row_of[column];
      long least = infinite;
      std::size_t next = 0;
      for (std::size_t j = 1; j <= n; ++j) {
        if (settled[j]) {
          continue;
        }
        const long reduced = costs.at(here - 1, j - 1) - row_price[here] - column_price[j];
        if (reduced < distance[j]) {
          distance[j] = reduced;
          came_from[j] = column;
        }
        if (distance[j] < least) {
          least = distance[j];
          next = j;
        }
      }
      for (std::size_t j = 0; j <= n; ++j) {
        if (settled[j]) {
          row_price[row_of[j]] += least;
          column_price[j] -= least;
        } else {
          distance[j] -= least;
        }
      }
      column = next;
    }
    while (column != 0) {
      row_of[column] = row_of[came_from[column]];
      column = came_from[column];
    }
  }
  std::vector<std::size_t> assignment(n);
  for (std::size_t j = 1; j <= n; ++j) {
    assignment[row_of[j] - 1] = j - 1;
  }
  return assignment;
}

long cost_of(const CostTable& costs, const std::vector<std::size_t>& assignment) {
  long sum = 0;
  for (std::size_t row = 0; row < assignment.size(); ++row) {
    sum += costs.at(row, assignment[row]);
  }
  return sum;
}

}  // namespace pointwright::film

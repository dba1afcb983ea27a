#pragma once

#include <cstdint>
#include <optional>

#include "finder/families.hpp"
#include "finder/search.hpp"

/// Search by building: sparse boards are put up at random, mended move by move until the query
/// holds, then thinned out and tidied.
namespace pointwright::finder {

/// How hard a builder tries for one finding. Work is counted as in Facts.
struct Effort {
  std::int64_t work_to_find = 12'000'000;  ///< until it gives up
  std::int64_t work_to_choose = 250'000;   ///< until it takes the clearest of what it has
  int changes_each = 120;                  ///< changes tried on one random board
};

/// Builds findings one after the other.
class Builder {
 public:
  Builder(const Wanted& wanted, std::uint64_t seed);

  /// The next finding that is far enough from `others`, or nothing if the effort was spent. The
  /// same calls give the same findings.
  std::optional<Finding> next(const std::vector<Finding>& others, const Effort& effort);

  /// Positions looked at so far.
  [[nodiscard]] std::int64_t looked_at() const { return looked_at_; }

 private:
  [[nodiscard]] int distance(const Finding& finding, int limit);
  [[nodiscard]] bool holds(const Finding& finding) { return distance(finding, 0) == 0; }
  Finding random_board();
  bool mend(Finding& finding, int changes);
  void thin_out(Finding& finding);
  void gather(Finding& finding);
  bool try_without(Finding& finding, Side side, Place place, int count);
  void change(Finding& finding);
  bool move_checker(Finding& finding, Side side, Place from, Place to);

  const Wanted& wanted_;
  Bounds bounds_;
  std::vector<std::optional<Roll>> rolls_;
  Random random_;
  Facts facts_;
  std::int64_t looked_at_ = 0;
};

/// How much there is to look at that the query does not ask for: the smaller, the clearer. Checkers
/// in play count most, then the plays of the roll.
int clutter(const Finding& finding, Side side);

}  // namespace pointwright::finder

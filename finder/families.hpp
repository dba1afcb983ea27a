#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <optional>

#include "finder/search.hpp"

/// Search by complete enumeration: every position of a small family is looked at, the smallest
/// families first. What is not found there does not exist there.
namespace pointwright::finder {

/// All positions in which the sides have so many checkers in play, on points and bar, the others
/// borne off.
struct Family {
  int light = 1;
  int dark = 1;
  [[nodiscard]] int size() const { return light + dark; }
};

/// How many boards a family has. Exact: placements of both sides, less those that share a point.
std::int64_t boards_in(Family family);

/// How many checkers the query leaves the sides, as far as its statements about numbers of
/// checkers and pips say so. Every position that makes the query true lies between.
struct Bounds {
  std::array<Range, 2> in_play{Range{1, checkers_per_side}, Range{1, checkers_per_side}};
  [[nodiscard]] bool empty() const {
    return in_play[0].least > in_play[0].most || in_play[1].least > in_play[1].most;
  }
};
Bounds bounds_of(const Query& query, Side mover);

/// The families within the bounds whose size is `size`, light's checkers few first.
std::vector<Family> families_of_size(int size, const Bounds& bounds);

/// Looks at every position of a family: each board with each open roll. Calls `take` for each that
/// makes the query true, at most once for each board. Returns false if `take` stopped it, or
/// `stop` did, which is asked now and then. `facts` counts the work; its side is the wanted one.
bool each_in_family(const Wanted& wanted, Family family, Facts& facts, const Take& take,
                    const std::function<bool()>& stop = {});

}  // namespace pointwright::finder

#include "film/set_up.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

#include "film/assignment.hpp"
#include "rules/position.hpp"
#include "studio/board_layout.hpp"

namespace pointwright::film {

namespace {

constexpr std::array<Side, 2> sides{Side::light, Side::dark};

int surplus(const Board& from, const Board& to, Side side, Place place) {
  return std::max(0, from.count(side, place) - to.count(side, place));
}

/// How far the hand goes from place to place, in tenths of frame units.
long hand_way(Side side, Place from, Place to) {
  static const BoardGeometry geometry(View{}, false);
  const drawing::Spot a = geometry.checker(side, from, 0);
  const drawing::Spot b = geometry.checker(side, to, 0);
  return std::lround(10 * std::hypot(a.x - b.x, a.y - b.y));
}

/// A point that changes sides: all its checkers have to go before the others can come.
struct Swap {
  Side leaving = Side::light;
  Place place = 0;  ///< as the leaving side counts
  int leave = 0;
  int arrive = 0;
};

std::vector<Swap> swaps_between(const Board& from, const Board& to) {
  std::vector<Swap> swaps;
  for (const Side side : sides) {
    for (Place point = 1; point <= 24; ++point) {
      const int leave = from.count(side, point);
      const int arrive = to.count(opponent(side), mirrored(point));
      if (leave > 0 && arrive > 0) {
        swaps.push_back({side, point, leave, arrive});
      }
    }
  }
  return swaps;
}

/// Places that a side's checkers can go to before any point has changed sides.
int free_places(const Board& from, const Board& to, Side side) {
  int places = 0;
  for (Place place = 0; place <= bar_place; ++place) {
    const bool taken =
        place != off_place && place != bar_place && from.count(opponent(side), mirrored(place)) > 0;
    places += taken ? 0 : surplus(to, from, side, place);
  }
  return places;
}

/// The order in which points change sides so that the fewest checkers are laid aside.
///
/// A point that is left needs as many free places of its side as it has checkers, and gives the
/// other side as many as are to arrive. Whatever the order, the free places after a set of points
/// follow from the set alone; what is laid aside is the worst shortage on the way. So the best
/// order comes from all sets of points, the smaller ones first, with the shortages of the two sides
/// that no other order undercuts.
struct SwapOrder {
  std::vector<std::size_t> order;
  int laid_aside = 0;
};

class SwapPlanner {
 public:
  SwapPlanner(const Board& from, const Board& to, const std::vector<Swap>& swaps)
      : swaps_(swaps),
        free_{free_places(from, to, Side::light), free_places(from, to, Side::dark)} {}

  /// Over all orders. Precondition: at most `most_exact_swaps` points.
  [[nodiscard]] SwapOrder best() const {
    const std::size_t n = swaps_.size();
    std::vector<std::vector<State>> reached(std::size_t{1} << n);
    reached[0].push_back({});
    for (std::size_t set = 0; set < reached.size(); ++set) {
      for (std::size_t i = 0; i < reached[set].size(); ++i) {
        for (std::size_t next = 0; next < n; ++next) {
          if ((set >> next & 1U) == 0) {
            add(reached[set | std::size_t{1} << next], after(set, reached[set][i], next, i));
          }
        }
      }
    }
    std::size_t set = reached.size() - 1;
    const auto& last = reached[set];
    const auto least = std::ranges::min_element(last, {}, &State::aside);
    SwapOrder result;
    result.laid_aside = least->aside();
    for (State state = *least; set != 0;) {
      result.order.push_back(state.last);
      set &= ~(std::size_t{1} << state.last);
      state = reached[set][state.before];
    }
    std::ranges::reverse(result.order);
    return result;
  }

  /// Always the point that leaves the least shortage.
  [[nodiscard]] SwapOrder greedy() const {
    SwapOrder result;
    std::vector<bool> done(swaps_.size(), false);
    std::array<int, 2> free = free_;
    std::array<int, 2> aside{};
    for (std::size_t step = 0; step < swaps_.size(); ++step) {
      std::optional<std::size_t> best;
      const auto shortage = [&](std::size_t i) {
        return swaps_[i].leave - free[index(swaps_[i].leaving)];
      };
      for (std::size_t i = 0; i < swaps_.size(); ++i) {
        if (!done[i] && (!best || shortage(i) < shortage(*best))) {
          best = i;
        }
      }
      const Swap& swap = swaps_[*best];
      done[*best] = true;
      result.order.push_back(*best);
      free[index(swap.leaving)] -= swap.leave;
      free[index(opponent(swap.leaving))] += swap.arrive;
      aside[index(swap.leaving)] = std::max(aside[index(swap.leaving)], -free[index(swap.leaving)]);
    }
    result.laid_aside = aside[0] + aside[1];
    return result;
  }

 private:
  struct State {
    std::array<int, 2> shortage{};  ///< the worst so far, of each side
    std::size_t last = 0;           ///< the point that changed sides last
    std::size_t before = 0;         ///< which state of the set without it
    [[nodiscard]] int aside() const { return shortage[0] + shortage[1]; }
  };

  [[nodiscard]] State after(std::size_t set, const State& state, std::size_t next,
                            std::size_t at) const {
    const Side side = swaps_[next].leaving;
    int free = free_[index(side)] - swaps_[next].leave;
    for (std::size_t i = 0; i < swaps_.size(); ++i) {
      if ((set >> i & 1U) != 0) {
        free += swaps_[i].leaving == side ? -swaps_[i].leave : swaps_[i].arrive;
      }
    }
    State result = state;
    result.shortage[index(side)] = std::max(result.shortage[index(side)], -free);
    result.last = next;
    result.before = at;
    return result;
  }

  static void add(std::vector<State>& states, const State& state) {
    const auto beats = [](const State& a, const State& b) {
      return a.shortage[0] <= b.shortage[0] && a.shortage[1] <= b.shortage[1];
    };
    if (std::ranges::any_of(states, [&](const State& other) { return beats(other, state); })) {
      return;
    }
    std::erase_if(states, [&](const State& other) { return beats(state, other); });
    states.push_back(state);
  }

  const std::vector<Swap>& swaps_;
  std::array<int, 2> free_;
};

/// A board on which the hands work.
class Table {
 public:
  Table(const Board& now, const Board& wanted) : now_(now), wanted_(wanted) {}

  [[nodiscard]] bool is_open(Side side, Place place) const {
    return place == off_place || place == bar_place ||
           now_.count(opponent(side), mirrored(place)) == 0;
  }

  void carry(Side side, Place from, Place to) {
    --now_.of(side)[from];
    ++now_.of(side)[to];
    note({Carry::Kind::over, side, from, to, 1});
  }

  /// Empties a point that changes sides, into the nearest places that are open and wanted.
  void clear(const Swap& swap) {
    while (now_.count(swap.leaving, swap.place) > 0) {
      if (const auto to = nearest_open(swap.leaving, swap.place)) {
        carry(swap.leaving, swap.place, *to);
        continue;
      }
      --now_.of(swap.leaving)[swap.place];
      ++aside_[index(swap.leaving)];
      note({Carry::Kind::aside, swap.leaving, swap.place, 0, 1});
    }
  }

  /// Carries everything that is still in the wrong place, by the shortest ways in all. Returns
  /// whether it could be done; it cannot while the ways block one another.
  bool finish() {
    std::vector<std::pair<Side, std::pair<Place, Place>>> ways;
    for (const Side side : sides) {
      for (const auto& way : shortest_ways(side)) {
        ways.emplace_back(side, way);
      }
    }
    while (!ways.empty()) {
      const auto next = std::ranges::find_if(
          ways, [&](const auto& way) { return is_open(way.first, way.second.second); });
      if (next == ways.end()) {
        return false;
      }
      const auto [side, way] = *next;
      if (way.first == on_table) {
        ++now_.of(side)[way.second];
        --aside_[index(side)];
        note({Carry::Kind::back, side, 0, way.second, 1});
      } else {
        carry(side, way.first, way.second);
      }
      ways.erase(next);
    }
    return true;
  }

  std::vector<Carry> carries;

 private:
  static constexpr Place on_table = 26;

  [[nodiscard]] std::optional<Place> nearest_open(Side side, Place from) const {
    std::optional<Place> best;
    for (Place place = 0; place <= bar_place; ++place) {
      if (surplus(wanted_, now_, side, place) > 0 && is_open(side, place) &&
          (!best || hand_way(side, from, place) < hand_way(side, from, *best))) {
        best = place;
      }
    }
    return best;
  }

  [[nodiscard]] std::vector<std::pair<Place, Place>> shortest_ways(Side side) const {
    std::vector<Place> from(static_cast<std::size_t>(aside_[index(side)]), on_table);
    std::vector<Place> to;
    for (Place place = 0; place <= bar_place; ++place) {
      from.insert(from.end(), static_cast<std::size_t>(surplus(now_, wanted_, side, place)), place);
      to.insert(to.end(), static_cast<std::size_t>(surplus(wanted_, now_, side, place)), place);
    }
    CostTable costs(from.size());
    for (std::size_t i = 0; i < from.size(); ++i) {
      for (std::size_t j = 0; j < to.size(); ++j) {
        costs.at(i, j) = from[i] == on_table ? 0 : hand_way(side, from[i], to[j]);
      }
    }
    std::vector<std::pair<Place, Place>> ways;
    const auto assignment = cheapest_assignment(costs);
    for (std::size_t i = 0; i < from.size(); ++i) {
      ways.emplace_back(from[i], to[assignment[i]]);
    }
    std::ranges::stable_sort(ways);
    return ways;
  }

  void note(const Carry& carry) {
    if (!carries.empty()) {
      Carry like = carries.back();
      like.count = carry.count;
      if (like == carry) {
        ++carries.back().count;
        return;
      }
    }
    carries.push_back(carry);
  }

  Board now_;
  const Board& wanted_;
  std::array<int, 2> aside_{};
};

}  // namespace

int checkers_to_touch(const Board& from, const Board& to) {
  int touched = 0;
  for (const Side side : sides) {
    for (Place place = 0; place <= bar_place; ++place) {
      touched += surplus(from, to, side, place);
    }
  }
  return touched;
}

Change change_between(const Board& from, const Board& to) {
  Change change;
  change.touched = checkers_to_touch(from, to);
  const std::vector<Swap> swaps = swaps_between(from, to);
  change.fewest_carries = swaps.size() <= most_exact_swaps;
  const SwapPlanner planner(from, to, swaps);
  const SwapOrder order = change.fewest_carries ? planner.best() : planner.greedy();
  change.laid_aside = order.laid_aside;
  if (order.laid_aside == 0) {
    change.fewest_carries = true;
    Table table(from, to);
    if (table.finish()) {
      change.carries = std::move(table.carries);
      return change;
    }
  }
  Table table(from, to);
  for (const std::size_t i : order.order) {
    table.clear(swaps[i]);
  }
  table.finish();
  change.carries = std::move(table.carries);
  return change;
}

Board read_mirrored(const Board& board) {
  Board result = board;
  for (const Side side : sides) {
    for (Place point = 1; point <= 24; ++point) {
      const auto across = static_cast<std::size_t>(point <= 12 ? 13 - point : 37 - point);
      result.of(side)[across] = board.of(side)[point];
    }
  }
  return result;
}

std::string carry_text(const Carry& carry, const std::string& side_name) {
  const std::string who = fmt::format("{} of {}: ", carry.count, side_name);
  switch (carry.kind) {
    case Carry::Kind::over:
      return fmt::format("{}{} to {}", who, to_text(carry.from), to_text(carry.to));
    case Carry::Kind::aside:
      return fmt::format("{}{} aside", who, to_text(carry.from));
    case Carry::Kind::back:
      return fmt::format("{}back, to {}", who, to_text(carry.to));
  }
  return {};
}

}  // namespace pointwright::film

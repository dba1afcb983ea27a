#include "film/filming_order.hpp"

#include <algorithm>
#include <limits>
#include <numeric>
#include <optional>

namespace pointwright::film {

namespace {

constexpr long forbidden = 1'000'000'000;

Board bare_board() {
  Board board;
  for (const Side side : {Side::light, Side::dark}) {
    board.of(side)[off_place] = checkers_per_side;
  }
  return board;
}

// Where the checkers of a shot lie, as the camera's first position counts.
Board as_laid(const Board& board, const View& view) {
  return view.home_on_left ? read_mirrored(board) : board;
}
// Back to how the shot counts, for words.
Board as_counted(const Board& laid, const View& view) {
  return as_laid(laid, view);  // reading mirrored twice changes nothing
}

long bound(const TransferCosts& costs) {
  // The last shot leads back to the bare table, at no cost.
  CostTable table(costs.size());
  for (std::size_t i = 0; i < costs.size(); ++i) {
    for (std::size_t j = 0; j < costs.size(); ++j) {
      table.at(i, j) = i == j ? forbidden : j == 0 ? 0 : costs.at(i, j);
    }
  }
  return costs.size() < 2 ? 0 : cost_of(table, cheapest_assignment(table));
}

// An order as a path of rows: 0 first, then the shots.
using Tour = std::vector<std::size_t>;

long cost(const TransferCosts& costs, const Tour& tour) {
  long sum = 0;
  for (std::size_t i = 1; i < tour.size(); ++i) {
    sum += costs.at(tour[i - 1], tour[i]);
  }
  return sum;
}

// Always on to the nearest shot, beginning with `first`.
Tour nearest_neighbours(const TransferCosts& costs, std::size_t first) {
  Tour tour{0, first};
  std::vector<bool> used(costs.size(), false);
  used[0] = used[first] = true;
  while (tour.size() < costs.size()) {
    std::size_t next = 0;
    for (std::size_t j = 1; j < costs.size(); ++j) {
      if (!used[j] && (next == 0 || costs.at(tour.back(), j) < costs.at(tour.back(), next))) {
        next = j;
      }
    }
    used[next] = true;
    tour.push_back(next);
  }
  return tour;
}

// Moves a run of shots to a better place, as long as there is one. Runs keep their direction, since
// the way from one shot to another is not the way back.
class RunMover {
 public:
  RunMover(const TransferCosts& costs, Tour& tour) : costs_(costs), tour_(tour) {}

  void improve() {
    while (improve_once()) {
    }
  }

 private:
  [[nodiscard]] long step(std::size_t from, std::size_t to) const {
    return from < tour_.size() && to < tour_.size() ? costs_.at(tour_[from], tour_[to]) : 0;
  }

  bool improve_once() {
    const std::size_t n = tour_.size();
    for (std::size_t begin = 1; begin < n; ++begin) {
      for (std::size_t end = begin + 1; end <= n; ++end) {
        const long out =
            step(begin - 1, begin) + step(end - 1, end) - (end < n ? step(begin - 1, end) : 0);
        if (out <= 0) {
          continue;
        }
        for (std::size_t after = 0; after < n; ++after) {
          if (after + 1 >= begin && after < end) {
            continue;
          }
          const long in = step(after, begin) + step(end - 1, after + 1) - step(after, after + 1);
          if (in < out) {
            move(begin, end, after);
            return true;
          }
        }
      }
    }
    return false;
  }

  void move(std::size_t begin, std::size_t end, std::size_t after) {
    const auto at = [&](std::size_t i) { return tour_.begin() + static_cast<std::ptrdiff_t>(i); };
    if (after < begin) {
      std::rotate(at(after + 1), at(begin), at(end));
    } else {
      std::rotate(at(begin), at(end), at(after + 1));
    }
  }

  const TransferCosts& costs_;
  Tour& tour_;
};

FilmingOrder order_of(const TransferCosts& costs, const Tour& tour, long at_least) {
  FilmingOrder result;
  for (std::size_t i = 1; i < tour.size(); ++i) {
    result.order.push_back(tour[i] - 1);
  }
  result.touched = cost(costs, tour);
  result.at_least = at_least;
  return result;
}

}  // namespace

TransferCosts transfer_costs(const std::vector<Shot>& shots) {
  TransferCosts costs(shots.size() + 1);
  const Board bare = bare_board();
  for (std::size_t j = 0; j < shots.size(); ++j) {
    costs.at(0, j + 1) = checkers_to_touch(bare, shots[j].start.board);
    for (std::size_t i = 0; i < shots.size(); ++i) {
      costs.at(i + 1, j + 1) =
          checkers_to_touch(as_laid(shots[i].end().board, shots[i].opening.view),
                            as_laid(shots[j].start.board, shots[j].opening.view));
    }
  }
  return costs;
}

long touched_in(const TransferCosts& costs, const std::vector<std::size_t>& order) {
  Tour tour{0};
  for (const std::size_t shot : order) {
    tour.push_back(shot + 1);
  }
  return cost(costs, tour);
}

FilmingOrder exact_order(const TransferCosts& costs) {
  const std::size_t n = costs.size() - 1;
  if (n == 0) {
    return {};
  }
  const std::size_t sets = std::size_t{1} << n;
  constexpr int unreached = std::numeric_limits<int>::max() / 2;
  // least[set * n + last]: the cost of filming a set of shots, `last` at its end.
  std::vector<int> least(sets * n, unreached);
  for (std::size_t last = 0; last < n; ++last) {
    least[(std::size_t{1} << last) * n + last] = static_cast<int>(costs.at(0, last + 1));
  }
  for (std::size_t set = 1; set < sets; ++set) {
    for (std::size_t last = 0; last < n; ++last) {
      const int so_far = least[set * n + last];
      if (so_far >= unreached) {
        continue;
      }
      for (std::size_t next = 0; next < n; ++next) {
        if ((set >> next & 1U) == 0) {
          int& there = least[(set | std::size_t{1} << next) * n + next];
          there = std::min(there, so_far + static_cast<int>(costs.at(last + 1, next + 1)));
        }
      }
    }
  }
  std::size_t set = sets - 1;
  std::size_t last = 0;
  for (std::size_t i = 1; i < n; ++i) {
    if (least[set * n + i] < least[set * n + last]) {
      last = i;
    }
  }
  FilmingOrder result;
  result.touched = result.at_least = least[set * n + last];
  for (;;) {
    result.order.push_back(last);
    const std::size_t rest = set & ~(std::size_t{1} << last);
    if (rest == 0) {
      break;
    }
    for (std::size_t before = 0; before < n; ++before) {
      if ((rest >> before & 1U) != 0 &&
          least[rest * n + before] + static_cast<int>(costs.at(before + 1, last + 1)) ==
              least[set * n + last]) {
        set = rest;
        last = before;
        break;
      }
    }
  }
  std::ranges::reverse(result.order);
  return result;
}

FilmingOrder good_order(const TransferCosts& costs) {
  const std::size_t n = costs.size() - 1;
  // As written is an order too, and the one to beat.
  Tour best(costs.size());
  std::iota(best.begin(), best.end(), std::size_t{0});
  if (n > 1) {
    RunMover(costs, best).improve();
    constexpr std::size_t most_starts = 12;
    const std::size_t stride = std::max<std::size_t>(1, n / most_starts);
    for (std::size_t first = 1; first <= n; first += stride) {
      Tour tour = nearest_neighbours(costs, first);
      RunMover(costs, tour).improve();
      if (cost(costs, tour) < cost(costs, best)) {
        best = std::move(tour);
      }
    }
  }
  return order_of(costs, best, bound(costs));
}

FilmingOrder filming_order(const TransferCosts& costs) {
  return costs.size() - 1 <= longest_exact_list ? exact_order(costs) : good_order(costs);
}

Change change_between(const Shot& from, const Shot& to) {
  const Board laid = as_laid(from.end().board, from.opening.view);
  return change_between(as_counted(laid, to.opening.view), to.start.board);
}

Change first_set_up(const Shot& shot) {
  return change_between(bare_board(), shot.start.board);
}

Change once_more(const Shot& shot) {
  return change_between(shot.end().board, shot.start.board);
}

}  // namespace pointwright::film

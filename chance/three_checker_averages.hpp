#pragma once

#include <algorithm>
#include <array>
#include <bit>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "chance/three_checker_bounds.hpp"
#include "chance/three_checker_candidates.hpp"

namespace pointwright {

/// The average over the rolls of the best play, by `Planes` measures at once.
///
/// Each function also marks, where `useful` is given, the plays whose upper bound reaches the best
/// lower bound for some side that is asked about: one mark for each landing of the list.
template <std::size_t Planes>
class RollAverages {
 public:
  using Values = Measures<Planes>;
  using Marks = std::vector<std::uint8_t>;

  RollAverages(const ThreeCheckers& index, const PairBounds<Planes>& after)
      : index_(index), after_(after) {}

  /// Fills `result[i]` for a side on roll that has `plays` against `waiting[i]`, all of which block
  /// the same point or none.
  void find(const PlayList& plays, const std::uint16_t* waiting, std::size_t count, Values* result,
            Marks* useful = nullptr) const;

  /// Fills `result[i]` for a side on roll that has `plays` against each side of a run; room for
  /// run_room results is needed. Sides whose nearest checker stands with another are left open
  /// unless the whole run blocks the point that `plays` are for. `asked` has a bit for each side,
  /// by the place of its nearest checker.
  static constexpr std::size_t run_room = 28;
  void find_run(const PlayList& plays, const ThreeCheckers::Run& run, Values* result,
                Marks* useful = nullptr, PointSet asked = 0) const;

 private:
  static constexpr std::size_t width = 2 * Planes;  ///< numbers of one side
  static constexpr std::size_t room = width * run_room;
  static constexpr float rounding = 1e-6F;  ///< a play this much below the best may equal it
  using Numbers = std::array<float, room>;

  /// Numbers as they lie in memory; measures are arrays of pairs of floats and nothing else.
  static const float* numbers(const Values* values) {
    static_assert(sizeof(Values) == width * sizeof(float));
    return reinterpret_cast<const float*>(values);  // NOLINT(*-reinterpret-cast)
  }

  /// What a landing hits in a run. Where the nearest checker is hit too, the side that comes of it
  /// is another one: `nearest` are those places, `other_hits` what is hit besides.
  struct Strike {
    const Values* row = nullptr;
    const Values* here = nullptr;  ///< the first side of the run after `other_hits`
    std::size_t other_hits = 0;
    PointSet nearest = 0;
  };
  [[nodiscard]] Strike strike(const Landing& landing, const ThreeCheckers::Run& run) const {
    const Values* row = after_.row(landing.after);
    const std::size_t hits =
        ThreeCheckers::hits(run.others, landing.stops) & (index_.nearest_bit() - 1);
    return {row, row + run.after_hits[hits], hits, landing.stops & run.nearest};
  }
  /// What the side of the run whose nearest checker stands at `place` becomes when it is hit.
  [[nodiscard]] const float* struck(const Strike& strike, const ThreeCheckers::Run& run,
                                    std::size_t place) const {
    const auto side = static_cast<std::uint32_t>(run.first + place);
    return numbers(strike.row + index_.after_hits(side, strike.other_hits | index_.nearest_bit()));
  }

  /// Limits that leave every number alone but those of one side, which they push below all others.
  /// Read from a window that is moved so that the gap falls on that side.
  struct Blanks {
    std::array<float, 2 * room> window{};
    constexpr Blanks() {
      window.fill(2);
      for (std::size_t i = 0; i < width; ++i) window[room + i] = -2;
    }
    [[nodiscard]] const float* at(std::size_t place) const {
      return window.data() + (room - width * place);
    }
  };
  static constexpr Blanks blanks{};
  static constexpr std::size_t no_place = run_room - 1;  ///< beyond every run

  template <std::size_t MostStops>
  void raise(const Landing& landing, const ThreeCheckers::Run& run, std::size_t count,
             Numbers& best, Numbers& struck_best) const;
  void mark(const PlayList& plays, std::size_t roll, const ThreeCheckers::Run& run, PointSet asked,
            const Numbers& best, Marks& useful) const;

  static float weight(std::size_t roll) {
    return static_cast<float>(all_rolls()[roll].ways()) / 36;
  }

  const ThreeCheckers& index_;
  const PairBounds<Planes>& after_;
};

/// Raises the best of the sides of a run, several numbers at a time and without a branch: whether
/// a play hits is as good as random to a processor. Sides whose nearest checker is hit are raised
/// apart in `struck_best`.
template <std::size_t Planes>
template <std::size_t MostStops>
void RollAverages<Planes>::raise(const Landing& landing, const ThreeCheckers::Run& run,
                                 std::size_t count, Numbers& best, Numbers& struck_best) const {
  const Strike here = strike(landing, run);
  const float* values = numbers(here.here);
  // The next run comes next; waiting for its numbers would take longer than raising them.
  __builtin_prefetch(values + count);
  std::array<const float*, MostStops> limits;
  PointSet left = here.nearest;
  for (std::size_t k = 0; k < MostStops; ++k) {
    const bool hit = left != 0;
    const std::size_t place =
        hit ? static_cast<std::size_t>(bar_place - std::countr_zero(left)) : no_place;
    left &= left - 1;
    limits[k] = blanks.at(place);
    const float* other = hit ? struck(here, run, place) : values;
    for (std::size_t i = 0; i < width; ++i) {
      float& raised = struck_best[width * place + i];
      raised = raised < other[i] ? other[i] : raised;
    }
  }
  // Four at a time, all read before any is written: a compiler makes one instruction of four.
  for (std::size_t i = 0; i < count; i += 4) {
    std::array<float, 4> raised;
    for (std::size_t k = 0; k < 4; ++k) raised[k] = values[i + k];
    for (std::size_t m = 0; m < MostStops; ++m) {
      for (std::size_t k = 0; k < 4; ++k) {
        const float limit = limits[m][i + k];
        raised[k] = limit < raised[k] ? limit : raised[k];
      }
    }
    for (std::size_t k = 0; k < 4; ++k) {
      raised[k] = raised[k] < best[i + k] ? best[i + k] : raised[k];
    }
    for (std::size_t k = 0; k < 4; ++k) best[i + k] = raised[k];
  }
}

template <std::size_t Planes>
void RollAverages<Planes>::mark(const PlayList& plays, std::size_t roll,
                                const ThreeCheckers::Run& run, PointSet asked, const Numbers& best,
                                Marks& useful) const {
  const auto reaches = [&](const float* values, std::size_t place) {
    bool reached = false;
    for (std::size_t k = 0; k < Planes; ++k) {
      reached |= values[2 * k + 1] + rounding >= best[width * place + 2 * k];
    }
    return reached;
  };
  const auto cell = [&](std::size_t at, std::size_t place) {
    const Strike here = strike(plays.landings[at], run);
    const bool is_struck =
        place > 0 && (here.nearest & point_bit(bar_place - static_cast<int>(place))) != 0;
    return is_struck ? struck(here, run, place) : numbers(here.here + place);
  };
  for (std::size_t at = plays.begins[roll]; at < plays.begins[roll + 1]; ++at) {
    for (PointSet left = asked; left != 0 && useful[at] == 0; left &= left - 1) {
      const auto place = static_cast<std::size_t>(std::countr_zero(left));
      const float* values = cell(at, place);
      // Plays that differ only in the points passed stand side by side, and are often the same.
      bool new_here = true;
      for (std::size_t earlier = at; earlier > plays.begins[roll] && new_here; --earlier) {
        if (plays.landings[earlier - 1].after != plays.landings[at].after) break;
        new_here = useful[earlier - 1] == 0 || cell(earlier - 1, place) != values;
      }
      if (new_here && reaches(values, place)) useful[at] = 1;
    }
  }
}

template <std::size_t Planes>
void RollAverages<Planes>::find_run(const PlayList& plays, const ThreeCheckers::Run& run,
                                    Values* result, Marks* useful, PointSet asked) const {
  Numbers sum{};
  Numbers best;
  Numbers struck_best;
  const std::size_t count = width * run.size;
  for (std::size_t roll = 0; roll < all_rolls().size(); ++roll) {
    std::fill_n(best.begin(), count + 4, -2.0F);
    struck_best.fill(-2);
    // A double comes down on up to four points.
    const bool is_double = all_rolls()[roll].is_double();
    for (const Landing& landing : plays.of(roll)) {
      if (is_double) {
        raise<4>(landing, run, count, best, struck_best);
      } else {
        raise<2>(landing, run, count, best, struck_best);
      }
    }
    const float ways = weight(roll);
    for (std::size_t i = 0; i < count; ++i) {
      best[i] = best[i] < struck_best[i] ? struck_best[i] : best[i];
      sum[i] += ways * best[i];
    }
    if (useful != nullptr) mark(plays, roll, run, asked, best, *useful);
  }
  for (std::size_t i = 0; i < run.size; ++i) {
    for (std::size_t k = 0; k < Planes; ++k) {
      result[i][k] = {sum[width * i + 2 * k], sum[width * i + 2 * k + 1]};
    }
  }
}

template <std::size_t Planes>
void RollAverages<Planes>::find(const PlayList& plays, const std::uint16_t* waiting,
                                std::size_t count, Values* result, Marks* useful) const {
  std::vector<Values> best(count);
  const auto after = [&](const Landing& landing, std::size_t i) -> const Values& {
    const std::size_t hits = ThreeCheckers::hits(index_.blot_bits(waiting[i]), landing.stops);
    return after_.at(landing.after, index_.after_hits(waiting[i], hits));
  };
  std::fill_n(result, count, Values{});
  for (std::size_t roll = 0; roll < all_rolls().size(); ++roll) {
    for (Values& values : best) values.fill({-2, -2});
    for (const Landing& landing : plays.of(roll)) {
      for (std::size_t i = 0; i < count; ++i) {
        const Values& values = after(landing, i);
        for (std::size_t k = 0; k < Planes; ++k) best[i][k] = greater(best[i][k], values[k]);
      }
    }
    for (std::size_t i = 0; i < count; ++i) {
      for (std::size_t k = 0; k < Planes; ++k) {
        result[i][k].low += weight(roll) * best[i][k].low;
        result[i][k].high += weight(roll) * best[i][k].high;
      }
    }
    if (useful == nullptr) continue;
    for (std::size_t at = plays.begins[roll]; at < plays.begins[roll + 1]; ++at) {
      for (std::size_t i = 0; i < count && (*useful)[at] == 0; ++i) {
        const Values& values = after(plays.landings[at], i);
        for (std::size_t k = 0; k < Planes; ++k) {
          if (values[k].high + rounding >= best[i][k].low) (*useful)[at] = 1;
        }
      }
    }
  }
}

}  // namespace pointwright

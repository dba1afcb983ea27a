#pragma once

#include <algorithm>
#include <array>
#include <bit>
#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

#include "chance/table_build.hpp"
#include "chance/three_checker_plays.hpp"

namespace pointwright {

/// A value known to lie in [low, high].
struct Bounds {
  float low = 0;
  float high = 0;
  [[nodiscard]] float gap() const { return high - low; }
  [[nodiscard]] float middle() const { return (low + high) / 2; }
  friend Bounds operator-(Bounds b) { return {-b.high, -b.low}; }
};

inline Bounds greater(Bounds a, Bounds b) {
  return {std::max(a.low, b.low), std::max(a.high, b.high)};
}

/// Several values of one pair, kept together: they are always read together.
template <std::size_t Planes>
using Measures = std::array<Bounds, Planes>;

/// Values for each pair of sides: [the side that has just moved][the side on roll], seen by the
/// first.
template <std::size_t Planes>
class PairBounds {
 public:
  /// Pairs that may be read beyond the end of a row, so that loops can take several at a time.
  static constexpr std::size_t padding = 4;

  /// Gives every pair the same bounds, but a side that is off has won.
  PairBounds(std::uint32_t size, Bounds anything) : rows_(size) {
    Measures<Planes> unknown;
    unknown.fill(anything);
    Measures<Planes> won;
    won.fill({1, 1});
    for (auto& row : rows_) row.assign(size + padding, unknown);
    rows_[0].assign(size + padding, won);
  }
  [[nodiscard]] const Measures<Planes>* row(std::uint32_t moved) const {
    return rows_[moved].data();
  }
  [[nodiscard]] const Measures<Planes>& at(std::uint32_t moved, std::uint32_t on_roll) const {
    return rows_[moved][on_roll];
  }
  [[nodiscard]] Measures<Planes>& at(std::uint32_t moved, std::uint32_t on_roll) {
    return rows_[moved][on_roll];
  }

  /// Keeps the first value of each pair and gives back the memory of the others, row by row.
  [[nodiscard]] PairBounds<1> take_first() {
    PairBounds<1> first;
    for (auto& row : rows_) {
      std::vector<Measures<1>> kept;
      kept.reserve(row.size());
      for (const Measures<Planes>& measures : row) kept.push_back({measures[0]});
      first.rows_.push_back(std::move(kept));
      row = {};
    }
    return first;
  }

 private:
  template <std::size_t>
  friend class PairBounds;
  PairBounds() = default;
  std::vector<std::vector<Measures<Planes>>> rows_;  ///< apart, so that each can be given back
};

/// The waiting sides that a side on roll is still to be solved against.
class OpenPairs {
 public:
  /// Opens every pair that can stand on a board with checkers left on both sides.
  explicit OpenPairs(const ThreeCheckers& index) : size_(index.size()), open_(size_ * size_) {
    for (std::uint32_t on_roll = 1; on_roll < index.size(); ++on_roll) {
      for (std::uint32_t waiting = 1; waiting < index.size(); ++waiting) {
        if (!index.fit(on_roll, waiting)) continue;
        open_[on_roll * size_ + waiting] = true;
        ++count_;
      }
    }
  }
  [[nodiscard]] bool has(std::uint32_t on_roll, std::uint32_t waiting) const {
    return open_[on_roll * size_ + waiting];
  }
  void close(std::uint32_t on_roll, std::uint32_t waiting) {
    open_[on_roll * size_ + waiting] = false;
    --count_;
  }
  [[nodiscard]] std::size_t count() const { return count_; }

 private:
  std::size_t size_;
  std::vector<bool> open_;
  std::size_t count_ = 0;
};

/// The plays of every side against a side that blocks no point, which four in five do not.
class FreePlays {
 public:
  explicit FreePlays(const ThreeCheckers& index) : lists_(index.size()) {
    ThreeCheckerPlays plays(index);
    for (std::uint32_t rank = 1; rank < index.size(); ++rank) {
      plays.find(rank, 0);
      lists_[rank] = plays.lists();
    }
  }
  [[nodiscard]] const LandingLists& of(std::uint32_t rank) const { return lists_[rank]; }

 private:
  std::vector<LandingLists> lists_;
};

/// The average over the rolls of the best play, by `Planes` measures at once.
template <std::size_t Planes>
class RollAverages {
 public:
  using Values = Measures<Planes>;

  RollAverages(const ThreeCheckers& index, const PairBounds<Planes>& after)
      : index_(index), after_(after) {}

  /// Fills `result[i]` for a side on roll that has `plays` against `waiting[i]`, all of which block
  /// the same point or none.
  void find(const LandingLists& plays, const std::uint16_t* waiting, std::size_t count,
            Values* result) const;

  /// Fills `result[i]` for a side on roll that has `plays` against each side of a run; room for
  /// run_room results is needed. Sides whose nearest checker stands with another are left open
  /// unless the whole run blocks the point that `plays` are for.
  static constexpr std::size_t run_room = 28;
  void find_run(const LandingLists& plays, const ThreeCheckers::Run& run, Values* result) const;

 private:
  static constexpr std::size_t chunk = 64;
  static Values worst() {
    Values measures;
    measures.fill({-1, -1});
    return measures;
  }
  static void raise(Values& best, const Values& other) {
    for (std::size_t k = 0; k < Planes; ++k) best[k] = greater(best[k], other[k]);
  }
  static void add(Values& sum, const Values& best, std::size_t roll) {
    const float weight = static_cast<float>(all_rolls()[roll].ways()) / 36;
    for (std::size_t k = 0; k < Planes; ++k) {
      sum[k].low += weight * best[k].low;
      sum[k].high += weight * best[k].high;
    }
  }
  const ThreeCheckers& index_;
  const PairBounds<Planes>& after_;
};

template <std::size_t Planes>
void RollAverages<Planes>::find(const LandingLists& plays, const std::uint16_t* waiting,
                                std::size_t count, Values* result) const {
  std::array<Values, chunk> best;
  std::array<ThreeCheckers::BlotBits, chunk> blots;
  for (std::size_t begin = 0; begin < count; begin += chunk) {
    const std::size_t here = std::min(chunk, count - begin);
    for (std::size_t i = 0; i < here; ++i) {
      blots[i] = index_.blot_bits(waiting[begin + i]);
      result[begin + i] = Values{};
    }
    for (std::size_t roll = 0; roll < plays.size(); ++roll) {
      std::fill_n(best.begin(), here, worst());
      for (const Landing& landing : plays[roll]) {
        const Values* row = after_.row(landing.after);
        for (std::size_t i = 0; i < here; ++i) {
          const std::size_t hits = ThreeCheckers::hits(blots[i], landing.stops);
          raise(best[i], row[index_.after_hits(waiting[begin + i], hits)]);
        }
      }
      for (std::size_t i = 0; i < here; ++i) add(result[begin + i], best[i], roll);
    }
  }
}

/// Raises `count` values, rounded up to whole vectors of four numbers. Written so that a compiler
/// makes one instruction of four numbers; the plain loop over pairs took five times as long.
template <std::size_t Planes>
void raise_all(Measures<Planes>* best, const Measures<Planes>* other, std::size_t count) {
  // Measures are arrays of pairs of floats and nothing else.
  static_assert(sizeof(Measures<Planes>) == 2 * Planes * sizeof(float));
  auto* b = reinterpret_cast<float*>(best);         // NOLINT(*-reinterpret-cast)
  auto* o = reinterpret_cast<const float*>(other);  // NOLINT(*-reinterpret-cast)
  for (std::size_t i = 0; i < 2 * Planes * count; i += 4) {
    for (std::size_t k = 0; k < 4; ++k) b[i + k] = b[i + k] < o[i + k] ? o[i + k] : b[i + k];
  }
}

template <std::size_t Planes>
void RollAverages<Planes>::find_run(const LandingLists& plays, const ThreeCheckers::Run& run,
                                    Values* result) const {
  std::array<Values, run_room> best;
  std::fill_n(result, run.size, Values{});
  const std::size_t nearest_bit = index_.nearest_bit();
  const std::size_t other_bits = nearest_bit - 1;
  for (std::size_t roll = 0; roll < plays.size(); ++roll) {
    std::fill_n(best.begin(), run_room, worst());
    for (const Landing& landing : plays[roll]) {
      const std::size_t hits = ThreeCheckers::hits(run.others, landing.stops) & other_bits;
      const Values* row = after_.row(landing.after);
      // Where the nearest checker is hit too, the side is another one: put it right afterwards.
      std::array<std::pair<std::size_t, Values>, 4> apart;
      std::size_t aparts = 0;
      for (PointSet left = landing.stops & run.nearest; left != 0; left &= left - 1) {
        const auto at = static_cast<std::size_t>(bar_place - std::countr_zero(left));
        apart[aparts++] = {at, best[at]};
      }
      raise_all<Planes>(best.data(), row + run.after_hits[hits], run.size);
      for (std::size_t i = 0; i < aparts; ++i) {
        auto& [at, before] = apart[i];
        const auto side = static_cast<std::uint32_t>(run.first + at);
        raise(before, row[index_.after_hits(side, hits | nearest_bit)]);
        best[at] = before;
      }
    }
    for (std::size_t i = 0; i < run.size; ++i) add(result[i], best[i], roll);
  }
}

}  // namespace pointwright

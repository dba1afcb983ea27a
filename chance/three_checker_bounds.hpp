#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
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
  /// Gives every pair the same bounds, but a side that is off has won.
  PairBounds(std::uint32_t size, Bounds anything) : rows_(size) {
    Measures<Planes> unknown;
    unknown.fill(anything);
    Measures<Planes> won;
    won.fill({1, 1});
    for (auto& row : rows_) row.assign(size, unknown);
    rows_[0].assign(size, won);
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
            Values* result);

  /// Gathers what is needed to answer one_against(waiting).
  void look_at(std::uint32_t waiting);
  /// The averages of a side on roll that has `plays` against the side looked at.
  [[nodiscard]] Values one_against(const LandingLists& plays) const;

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
  ThreeCheckers::BlotBits blots_{};
  /// [hits][side that has moved]: the measures while the side looked at rolls, after those hits.
  std::array<std::vector<Values>, 8> columns_;
};

template <std::size_t Planes>
void RollAverages<Planes>::find(const LandingLists& plays, const std::uint16_t* waiting,
                                std::size_t count, Values* result) {
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

template <std::size_t Planes>
void RollAverages<Planes>::look_at(std::uint32_t waiting) {
  blots_ = index_.blot_bits(waiting);
  for (std::size_t hits = 0; hits < columns_.size(); ++hits) {
    const std::uint32_t hit = index_.after_hits(waiting, hits);
    if (hits > 0 && hit == waiting) continue;
    columns_[hits].resize(index_.size());
    for (std::uint32_t moved = 0; moved < index_.size(); ++moved) {
      columns_[hits][moved] = after_.at(moved, hit);
    }
  }
}

template <std::size_t Planes>
auto RollAverages<Planes>::one_against(const LandingLists& plays) const -> Values {
  Values sum{};
  for (std::size_t roll = 0; roll < plays.size(); ++roll) {
    Values best = worst();
    for (const Landing& landing : plays[roll]) {
      raise(best, columns_[ThreeCheckers::hits(blots_, landing.stops)][landing.after]);
    }
    add(sum, best, roll);
  }
  return sum;
}

}  // namespace pointwright

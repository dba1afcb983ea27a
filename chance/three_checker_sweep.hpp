#pragma once

#include <cmath>

#include "chance/three_checker_bounds.hpp"

namespace pointwright {

/// Closes the bounds of some measures in sweeps over all open pairs.
///
/// Ranks fall with every move and rise only by a hit. So a sweep goes through the pairs in growing
/// borders, as the two-sided tables do, a run of ranks at a time: the run on roll against itself
/// and everything above it, then everything above on roll against the run. One sweep solves
/// whatever can follow without a hit, and each further sweep about one more hit. (Sides that block
/// a point are taken together with each side on roll instead, since the plays against them are not
/// kept.) The results of each half are entered together, so that the outcome does not depend on how
/// the host splits the work.
template <std::size_t Planes, class Conclude>
class Sweeper {
 public:
  using Values = Measures<Planes>;

  /// `conclude(on_roll, waiting, averages)` turns the averages over the rolls into what the pair is
  /// worth to the side that waits.
  Sweeper(const ThreeCheckers& index, const FreePlays& plays, PairBounds<Planes>& after,
          const Conclude& conclude, const BuildHost& host)
      : index_(index),
        plays_(plays),
        after_(after),
        conclude_(conclude),
        host_(host),
        open_(index),
        results_(index.size(), std::vector<Values>(RollAverages<Planes>::run_room)),
        wide_results_(RollAverages<Planes>::run_room,
                      std::vector<Values>(index.size() + RollAverages<Planes>::run_room)) {}

  /// Sweeps until no bound moves by more than a millionth; pairs whose bounds have met are left
  /// alone from then on. Reports progress between the two given shares of the whole work. Returns
  /// the number of sweeps, or 0 if the host stopped it.
  int run(double progress_from, double progress_to) {
    constexpr float least_change = 1e-6F;
    constexpr int most_sweeps = 1000;
    const double all = static_cast<double>(open_.count());
    for (int sweep = 1; sweep <= most_sweeps; ++sweep) {
      change_ = 0;
      for (const ThreeCheckers::Run& part : index_.runs()) {
        solve_on_roll(part);
        if (!part.blocks) solve_waiting(part);
      }
      const double closed = 1 - static_cast<double>(open_.count()) / all;
      if (!host_.report(progress_from + (progress_to - progress_from) * closed)) return 0;
      if (change_ <= least_change) return sweep;
    }
    return most_sweeps;
  }

 private:
  static constexpr float closed_gap = 1e-5F;

  [[nodiscard]] bool any_open(std::uint32_t on_roll, const ThreeCheckers::Run& part) const {
    for (std::uint32_t i = 0; i < part.size; ++i) {
      if (open_.has(on_roll, part.first + i)) return true;
    }
    return false;
  }

  /// The sides of a run on roll against the run and all above it, and against all that block.
  void solve_on_roll(const ThreeCheckers::Run& part) {
    host_.split(part.size, [&](std::size_t begin, std::size_t end) {
      const RollAverages<Planes> averages(index_, after_);
      ThreeCheckerPlays plays(index_);
      for (std::size_t i = begin; i < end; ++i) {
        const auto on_roll = static_cast<std::uint32_t>(part.first + i);
        if (on_roll == 0) continue;
        std::vector<Values>& results = wide_results_[i];
        for (const ThreeCheckers::Run& other : index_.runs()) {
          if (!other.blocks && other.first >= part.first && any_open(on_roll, other)) {
            averages.find_run(plays_.of(on_roll), other, results.data() + other.first);
          }
        }
        solve_blocks(on_roll, averages, plays, results);
      }
    });
    for (std::uint32_t i = 0; i < part.size; ++i) {
      const std::uint32_t on_roll = part.first + i;
      for (std::uint32_t waiting = 1; waiting < index_.size(); ++waiting) {
        const bool solved = waiting >= part.first || index_.block(waiting) != 0;
        if (solved && open_.has(on_roll, waiting)) {
          enter(on_roll, waiting, wide_results_[i][waiting]);
        }
      }
    }
  }

  /// One side on roll against all sides that block a point.
  void solve_blocks(std::uint32_t on_roll, const RollAverages<Planes>& averages,
                    ThreeCheckerPlays& plays, std::vector<Values>& results) const {
    std::vector<std::uint16_t> singles;
    std::vector<Values> found;
    for (int block = 1; block <= 24; ++block) {
      singles.clear();
      for (const std::uint16_t side : index_.single_blocks(block)) {
        if (open_.has(on_roll, side)) singles.push_back(side);
      }
      const ThreeCheckers::Run* other = index_.blocking_run(block);
      if (other != nullptr && !any_open(on_roll, *other)) other = nullptr;
      if (singles.empty() && other == nullptr) continue;
      plays.find(on_roll, block);
      if (other != nullptr) {
        averages.find_run(plays.lists(), *other, results.data() + other->first);
      }
      found.resize(singles.size());
      averages.find(plays.lists(), singles.data(), singles.size(), found.data());
      for (std::size_t i = 0; i < singles.size(); ++i) results[singles[i]] = found[i];
    }
  }

  /// Every side above a run on roll against it. Precondition: the run blocks no point.
  void solve_waiting(const ThreeCheckers::Run& part) {
    const std::uint32_t above = part.first + part.size;
    host_.split(index_.size() - above, [&](std::size_t begin, std::size_t end) {
      const RollAverages<Planes> averages(index_, after_);
      for (std::size_t i = begin; i < end; ++i) {
        const auto on_roll = static_cast<std::uint32_t>(above + i);
        if (any_open(on_roll, part)) {
          averages.find_run(plays_.of(on_roll), part, results_[on_roll].data());
        }
      }
    });
    for (std::uint32_t on_roll = above; on_roll < index_.size(); ++on_roll) {
      for (std::uint32_t i = 0; i < part.size; ++i) {
        const std::uint32_t waiting = part.first + i;
        if (index_.block(waiting) == 0 && open_.has(on_roll, waiting)) {
          enter(on_roll, waiting, results_[on_roll][i]);
        }
      }
    }
  }

  void enter(std::uint32_t on_roll, std::uint32_t waiting, const Values& averages) {
    const Values found = conclude_(on_roll, waiting, averages);
    float gap = 0;
    Values& all_held = after_.at(waiting, on_roll);
    for (std::size_t k = 0; k < Planes; ++k) {
      Bounds& held = all_held[k];
      change_ = std::max(
          {change_, std::abs(found[k].low - held.low), std::abs(found[k].high - held.high)});
      held = found[k];
      gap = std::max(gap, held.gap());
    }
    if (gap <= closed_gap) open_.close(on_roll, waiting);
  }

  const ThreeCheckers& index_;
  const FreePlays& plays_;
  PairBounds<Planes>& after_;
  const Conclude& conclude_;
  const BuildHost& host_;
  OpenPairs open_;
  float change_ = 0;
  std::vector<std::vector<Values>> results_;       ///< [on roll][side of the run]
  std::vector<std::vector<Values>> wide_results_;  ///< [side of the run on roll][waiting]
};

}  // namespace pointwright

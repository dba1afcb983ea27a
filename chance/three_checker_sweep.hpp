#pragma once

#include <cmath>

#include "chance/three_checker_bounds.hpp"

namespace pointwright {

/// Closes the bounds of some measures in sweeps over all open pairs.
///
/// Ranks fall with every move and rise only by a hit. So a sweep goes through the pairs in growing
/// borders, as the two-sided tables do: rank r on roll against r and above, then everything above r
/// on roll against r. One sweep solves whatever can follow without a hit, and each further sweep
/// one more hit. (Sides that block a point are taken with the side on roll instead, since the plays
/// against them are not kept.) The results of each half are entered together, so that the outcome
/// does not depend on how the host splits the work.
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
        open_(index) {}

  /// Sweeps until no bound moves by more than a millionth; pairs whose bounds have met are left
  /// alone from then on. Reports progress between the two given shares of the whole work. Returns
  /// the number of sweeps, or 0 if the host stopped it.
  int run(double progress_from, double progress_to) {
    constexpr float least_change = 1e-6F;
    constexpr int most_sweeps = 1000;
    const double all = static_cast<double>(open_.count());
    for (int sweep = 1; sweep <= most_sweeps; ++sweep) {
      change_ = 0;
      for (std::uint32_t rank = 1; rank < index_.size(); ++rank) {
        solve_on_roll(rank);
        if (index_.block(rank) == 0) solve_waiting(rank);
      }
      const double closed = 1 - static_cast<double>(open_.count()) / all;
      if (!host_.report(progress_from + (progress_to - progress_from) * closed)) return 0;
      if (change_ <= least_change) return sweep;
    }
    return most_sweeps;
  }

 private:
  static constexpr float closed_gap = 1e-5F;

  /// `rank` on roll against the sides of its rank or above, and against every side that blocks.
  void solve_on_roll(std::uint32_t rank) {
    for (auto& group : groups_) group.clear();
    for (std::uint32_t waiting = 1; waiting < index_.size(); ++waiting) {
      const int block = index_.block(waiting);
      if ((block != 0 || waiting >= rank) && open_.has(rank, waiting)) {
        groups_[static_cast<std::size_t>(block)].push_back(static_cast<std::uint16_t>(waiting));
      }
    }
    for (std::size_t i = 0; i < groups_.size(); ++i) results_[i].resize(groups_[i].size());
    // The first group is as large as all others together.
    const auto& free = groups_[0];
    host_.split(free.size(), [&](std::size_t begin, std::size_t end) {
      RollAverages<Planes>(index_, after_)
          .find(plays_.of(rank), free.data() + begin, end - begin, results_[0].data() + begin);
    });
    host_.split(groups_.size() - 1, [&](std::size_t begin, std::size_t end) {
      RollAverages<Planes> averages(index_, after_);
      ThreeCheckerPlays plays(index_);
      for (std::size_t block = begin + 1; block < end + 1; ++block) {
        if (groups_[block].empty()) continue;
        plays.find(rank, static_cast<int>(block));
        averages.find(plays.lists(), groups_[block].data(), groups_[block].size(),
                      results_[block].data());
      }
    });
    for (std::size_t i = 0; i < groups_.size(); ++i) {
      for (std::size_t j = 0; j < groups_[i].size(); ++j)
        enter(rank, groups_[i][j], results_[i][j]);
    }
  }

  /// Every side above `rank` on roll against it. Precondition: `rank` blocks no point.
  void solve_waiting(std::uint32_t rank) {
    auto& sides = groups_[0];
    sides.clear();
    for (std::uint32_t on_roll = rank + 1; on_roll < index_.size(); ++on_roll) {
      if (open_.has(on_roll, rank)) sides.push_back(static_cast<std::uint16_t>(on_roll));
    }
    if (sides.empty()) return;
    results_[0].resize(sides.size());
    RollAverages<Planes> averages(index_, after_);
    averages.look_at(rank);
    host_.split(sides.size(), [&](std::size_t begin, std::size_t end) {
      for (std::size_t i = begin; i < end; ++i) {
        results_[0][i] = averages.one_against(plays_.of(sides[i]));
      }
    });
    for (std::size_t i = 0; i < sides.size(); ++i) enter(sides[i], rank, results_[0][i]);
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
  std::array<std::vector<std::uint16_t>, 25> groups_;  ///< by the point that the sides block
  std::array<std::vector<Values>, 25> results_;
};

}  // namespace pointwright

#pragma once

#include <cmath>

#include "chance/three_checker_averages.hpp"

namespace pointwright {

/// Closes the bounds of some measures in sweeps over all open pairs.
///
/// Ranks fall with every move and rise only by a hit. So a sweep goes through the pairs in growing
/// borders, as the two-sided tables do, a run of ranks at a time: the run on roll against itself
/// and everything above it, then everything above on roll against the run. One sweep solves
/// whatever can follow without a hit, and each further sweep about one more hit. (Sides that block
/// a point are taken together with each side on roll instead, by the point.) The results of each
/// half are entered together, so that the outcome does not depend on how the host splits the work.
///
/// Every few sweeps the plays that can no longer be the best anywhere in a group are struck from
/// its candidates, which makes the later sweeps several times as fast as the first.
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
        groups_(index),
        candidates_(plays, index.size(), groups_.count()),
        results_(index.size(), std::vector<Values>(RollAverages<Planes>::run_room)),
        wide_results_(RollAverages<Planes>::run_room,
                      std::vector<Values>(index.size() + RollAverages<Planes>::run_room)) {}

  /// Sweeps until no bound moves by more than a millionth; pairs whose bounds have met are left
  /// alone from then on. Reports progress between the two given shares of the whole work. Returns
  /// the number of sweeps, or 0 if the host stopped it.
  int run(double progress_from, double progress_to) {
    constexpr float least_change = 1e-6F;
    constexpr int most_sweeps = 1000;
    const auto all = static_cast<double>(open_.count());
    double done = progress_from;
    for (int sweep = 1; sweep <= most_sweeps; ++sweep) {
      change_ = 0;
      for (std::size_t run = 0; run < index_.runs().size(); ++run) {
        // A sweep takes seconds: the host is heard between runs.
        if (!host_.report(done)) return 0;
        solve_on_roll(run);
        if (index_.runs()[run].block == 0) solve_waiting(run);
      }
      const double closed = 1 - static_cast<double>(open_.count()) / all;
      done = progress_from + (progress_to - progress_from) * closed;
      if (!host_.report(done)) return 0;
      if (change_ <= least_change) return sweep;
      if (sweep % sweeps_between_prunings == 0) prune();
    }
    return most_sweeps;
  }

 private:
  static constexpr float closed_gap = 1e-5F;
  static constexpr int sweeps_between_prunings = 6;
  static constexpr int last_point = 24;

  [[nodiscard]] bool any_open(std::uint32_t on_roll, const ThreeCheckers::Run& part) const {
    for (std::uint32_t i = 0; i < part.size; ++i) {
      if (open_.has(on_roll, part.first + i)) return true;
    }
    return false;
  }

  /// What one thread works with.
  struct Worker {
    explicit Worker(const Sweeper& sweeper)
        : averages(sweeper.index_, sweeper.after_), selection(sweeper.index_) {}
    RollAverages<Planes> averages;
    Selection selection;
    std::vector<std::uint16_t> singles;
    std::vector<Values> found;
  };

  std::span<std::uint32_t> candidates(std::uint32_t on_roll, std::size_t group) {
    return candidates_.of(plays_.of(on_roll), on_roll, group);
  }

  /// Selects the plays of `on_roll` against a group whose sides block a point or, with 0, none.
  void select(Worker& worker, std::uint32_t on_roll, std::size_t group, int block) {
    worker.selection.select(plays_.of(on_roll), on_roll, candidates(on_roll, group), block);
  }

  /// Finds the averages of one side on roll against the run with that number.
  void solve_run(Worker& worker, std::uint32_t on_roll, std::size_t number, Values* results) {
    const ThreeCheckers::Run& run = index_.runs()[number];
    select(worker, on_roll, WaitingGroups::of_run(number), run.block);
    worker.averages.find_run(worker.selection.list(), run, results);
  }

  /// The open sides whose nearest two checkers, and no others, block a point.
  void find_singles(Worker& worker, std::uint32_t on_roll, int block) const {
    worker.singles.clear();
    for (const std::uint16_t side : index_.single_blocks(block)) {
      if (open_.has(on_roll, side)) worker.singles.push_back(side);
    }
    worker.found.resize(worker.singles.size());
  }

  /// The sides of a run on roll against the run and all above it, and against all that block. All
  /// of them against one group before the next: their plays lead to much the same rows, and so the
  /// numbers that they need stay at hand.
  void solve_on_roll(std::size_t number) {
    const ThreeCheckers::Run& part = index_.runs()[number];
    host_.split(index_.runs().size(), [&](std::size_t begin, std::size_t end) {
      Worker worker(*this);
      for (std::size_t other = begin; other < end; ++other) {
        const ThreeCheckers::Run& run = index_.runs()[other];
        if (run.block == 0 && other < number) continue;
        for (std::uint32_t i = 0; i < part.size; ++i) {
          const std::uint32_t on_roll = part.first + i;
          if (on_roll != 0 && any_open(on_roll, run)) {
            solve_run(worker, on_roll, other, wide_results_[i].data() + run.first);
          }
        }
      }
    });
    // Only now: a run leaves something of no meaning where its nearest two checkers block a point.
    host_.split(last_point, [&](std::size_t begin, std::size_t end) {
      Worker worker(*this);
      for (std::size_t i = begin; i < end; ++i) {
        const int block = static_cast<int>(i) + 1;
        for (std::uint32_t k = 0; k < part.size; ++k) {
          if (part.first + k != 0) solve_singles(worker, part.first + k, block, wide_results_[k]);
        }
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

  /// One side on roll against the sides whose nearest two checkers block a point.
  void solve_singles(Worker& worker, std::uint32_t on_roll, int block,
                     std::vector<Values>& results) {
    find_singles(worker, on_roll, block);
    if (worker.singles.empty()) return;
    select(worker, on_roll, groups_.of_block(block), block);
    worker.averages.find(worker.selection.list(), worker.singles.data(), worker.singles.size(),
                         worker.found.data());
    for (std::size_t i = 0; i < worker.singles.size(); ++i) {
      results[worker.singles[i]] = worker.found[i];
    }
  }

  /// Every side above a run on roll against it. Precondition: the run blocks no point.
  void solve_waiting(std::size_t number) {
    const ThreeCheckers::Run& part = index_.runs()[number];
    const std::uint32_t above = part.first + part.size;
    host_.split(index_.size() - above, [&](std::size_t begin, std::size_t end) {
      Worker worker(*this);
      for (std::size_t i = begin; i < end; ++i) {
        const auto on_roll = static_cast<std::uint32_t>(above + i);
        if (any_open(on_roll, part)) solve_run(worker, on_roll, number, results_[on_roll].data());
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

  /// Strikes the plays that can no longer be the best from the candidates of each group.
  void prune() {
    host_.split(index_.size() - 1, [&](std::size_t begin, std::size_t end) {
      Worker worker(*this);
      for (std::size_t i = begin; i < end; ++i) {
        const auto on_roll = static_cast<std::uint32_t>(1 + i);
        for (std::size_t group = 0; group < groups_.run_groups(); ++group) {
          prune_runs(worker, on_roll, group);
        }
        for (int block = 1; block <= last_point; ++block) prune_singles(worker, on_roll, block);
      }
    });
  }

  void prune_runs(Worker& worker, std::uint32_t on_roll, std::size_t group) {
    std::array<Values, RollAverages<Planes>::run_room> unused;
    const std::span<std::uint32_t> bits = candidates(on_roll, group);
    std::vector<std::uint32_t> useful(bits.size());
    bool any = false;
    for (const std::size_t number : groups_.runs_of(group)) {
      const ThreeCheckers::Run& run = index_.runs()[number];
      PointSet open = 0;
      for (std::uint32_t place = 0; place < run.size; ++place) {
        const std::uint32_t waiting = run.first + place;
        if (index_.block(waiting) == run.block && open_.has(on_roll, waiting)) {
          open |= PointSet{1} << place;
        }
      }
      if (open == 0) continue;
      any = true;
      select(worker, on_roll, group, run.block);
      worker.averages.find_run(worker.selection.list(), run, unused.data(),
                               &worker.selection.useful(), open);
      worker.selection.mark_useful(useful);
    }
    if (any) std::copy(useful.begin(), useful.end(), bits.begin());
  }

  void prune_singles(Worker& worker, std::uint32_t on_roll, int block) {
    find_singles(worker, on_roll, block);
    if (worker.singles.empty()) return;
    const std::span<std::uint32_t> bits = candidates(on_roll, groups_.of_block(block));
    select(worker, on_roll, groups_.of_block(block), block);
    worker.averages.find(worker.selection.list(), worker.singles.data(), worker.singles.size(),
                         worker.found.data(), &worker.selection.useful());
    std::fill(bits.begin(), bits.end(), 0);
    worker.selection.mark_useful(bits);
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
  WaitingGroups groups_;
  Candidates candidates_;
  float change_ = 0;
  std::vector<std::vector<Values>> results_;       ///< [on roll][side of the run]
  std::vector<std::vector<Values>> wide_results_;  ///< [side of the run on roll][waiting]
};

}  // namespace pointwright

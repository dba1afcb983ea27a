#include "chance/three_checker.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "chance/three_checker_sweep.hpp"

namespace pointwright {
namespace {

using OnePlane = Measures<1>;
using TwoPlanes = Measures<2>;

/// The equity of offering: the other side takes or drops.
Bounds offered(Bounds theirs) {
  return {std::min(1.0F, 2 * theirs.low), std::min(1.0F, 2 * theirs.high)};
}

/// One value for two bounds, if they have met.
float settled(Bounds bounds, double& residual, bool& has_value) {
  if (bounds.gap() > three_checker_gap) {
    has_value = false;
    return std::numeric_limits<float>::quiet_NaN();
  }
  residual = std::max(residual, static_cast<double>(bounds.gap()) / 2);
  // A sum of 21 weights can pass one by a rounding.
  return std::clamp(bounds.middle(), -1.0F, 1.0F);
}

class Solver {
 public:
  Solver(const ThreeCheckers& index, ThreeCheckerReport& report, const BuildHost& host)
      : index_(index), report_(report), host_(host) {}

  bool solve_wins(const std::function<bool(std::span<const float>)>& take) {
    PairBounds<1> after(index_.size(), {0, 1});
    const auto conclude = [](std::uint32_t, std::uint32_t, const OnePlane& win) {
      return OnePlane{Bounds{1 - win[0].high, 1 - win[0].low}};
    };
    report_.win_sweeps = sweeps(after, conclude, 0, 0.2);
    if (report_.win_sweeps == 0) return false;
    std::vector<float> row(index_.size());
    for (std::uint32_t on_roll = 0; on_roll < index_.size(); ++on_roll) {
      std::fill(row.begin(), row.end(), std::numeric_limits<float>::quiet_NaN());
      for (std::uint32_t waiting = 1; on_roll > 0 && waiting < index_.size(); ++waiting) {
        if (!index_.fit(on_roll, waiting)) continue;
        ++report_.pairs;
        const Bounds bounds = after.at(waiting, on_roll)[0];
        report_.win_residual =
            std::max(report_.win_residual, static_cast<double>(bounds.gap()) / 2);
        row[waiting] = std::clamp(1 - bounds.middle(), 0.0F, 1.0F);
      }
      if (!take(row)) return false;
    }
    return true;
  }

  bool solve_cubes(const std::function<bool(std::span<const ThreeCheckerCube>)>& take) {
    // What a pair is worth to the side that has just moved when it has the cube, when the other
    // side has it, and when it is in the middle.
    PairBounds<2> held(index_.size(), {-1, 1});
    const auto conclude_held = [](std::uint32_t, std::uint32_t, const TwoPlanes& hold) {
      // The side on roll has the cube in hold[0] and faces it in hold[1].
      return TwoPlanes{-hold[1], -greater(hold[0], offered(hold[1]))};
    };
    report_.held_sweeps = sweeps(held, conclude_held, 0.2, 0.7);
    if (report_.held_sweeps == 0) return false;
    // A centred cube is worth no less than one that the other side has, and no more than one's own:
    // that holds after every number of rolls, whichever way endless games count.
    auto parts =
        held.split([](const TwoPlanes& both) { return both[0]; },
                   [](const TwoPlanes& both) { return Bounds{both[1].low, both[0].high}; });
    const PairBounds<1>& mine = parts.first;
    PairBounds<1>& centred = parts.second;
    const auto conclude = [&](std::uint32_t on_roll, std::uint32_t waiting, const OnePlane& hold) {
      const Bounds theirs = -mine.at(waiting, on_roll)[0];
      return OnePlane{-greater(hold[0], offered(theirs))};
    };
    report_.centred_sweeps = sweeps(centred, conclude, 0.7, 0.95);
    return report_.centred_sweeps != 0 && hand_over(mine, centred, take);
  }

 private:
  template <std::size_t Planes, class Conclude>
  int sweeps(PairBounds<Planes>& after, const Conclude& conclude, double progress_from,
             double progress_to) {
    return Sweeper<Planes, Conclude>(index_, plays_, after, conclude, host_)
        .run(progress_from, progress_to);
  }

  /// Finds the equities of holding the cube from the closed bounds and passes all rows on.
  bool hand_over(const PairBounds<1>& mine, const PairBounds<1>& centred,
                 const std::function<bool(std::span<const ThreeCheckerCube>)>& take) {
    constexpr float none = std::numeric_limits<float>::quiet_NaN();
    RollAverages<1> with_mine(index_, mine);
    RollAverages<1> with_centred(index_, centred);
    Selection selection(index_);
    std::vector<ThreeCheckerCube> row(index_.size());
    for (std::uint32_t on_roll = 0; on_roll < index_.size(); ++on_roll) {
      std::fill(row.begin(), row.end(), ThreeCheckerCube{none, none, none});
      std::array<std::vector<std::uint16_t>, 25> groups;
      for (std::uint32_t waiting = 1; on_roll > 0 && waiting < index_.size(); ++waiting) {
        if (!index_.fit(on_roll, waiting)) continue;
        groups[static_cast<std::size_t>(index_.block(waiting))].push_back(
            static_cast<std::uint16_t>(waiting));
      }
      for (std::size_t block = 0; block < groups.size(); ++block) {
        const auto& group = groups[block];
        if (group.empty()) continue;
        const PlayList& free = plays_.of(on_roll);
        const std::vector<std::uint32_t> all(free.landings.size(), ~std::uint32_t{0});
        selection.select(free, on_roll, all, static_cast<int>(block));
        std::vector<OnePlane> hold_mine(group.size());
        std::vector<OnePlane> hold_centred(group.size());
        with_mine.find(selection.list(), group.data(), group.size(), hold_mine.data());
        with_centred.find(selection.list(), group.data(), group.size(), hold_centred.data());
        for (std::size_t i = 0; i < group.size(); ++i) {
          row[group[i]] =
              numbers(-mine.at(group[i], on_roll)[0], hold_mine[i][0], hold_centred[i][0]);
        }
      }
      if (!take(row)) return false;
    }
    return host_.report(1.0);
  }

  /// What is handed over for one pair.
  ThreeCheckerCube numbers(Bounds theirs, Bounds hold_mine, Bounds hold_centred) {
    bool has_value = true;
    const ThreeCheckerCube cube{settled(theirs, report_.cube_residual, has_value),
                                settled(hold_mine, report_.cube_residual, has_value),
                                settled(hold_centred, report_.cube_residual, has_value)};
    if (!has_value) ++report_.without_value;
    return cube;
  }

  const ThreeCheckers& index_;
  FreePlays plays_{index_};
  ThreeCheckerReport& report_;
  const BuildHost& host_;
};

}  // namespace

ThreeCheckerReport solve_three_checkers(
    const ThreeCheckers& index, const std::function<bool(std::span<const float> row)>& take_wins,
    const std::function<bool(std::span<const ThreeCheckerCube> row)>& take_cubes,
    const BuildHost& host) {
  ThreeCheckerReport report;
  Solver solver(index, report, host);
  report.complete = solver.solve_wins(take_wins) && solver.solve_cubes(take_cubes);
  return report;
}

bool ThreeCheckerTable::covers(const Board& board) const {
  return index_.contains(board.of(Side::light)) && index_.contains(board.of(Side::dark)) &&
         index_.rank(board.of(Side::light)) != 0 && index_.rank(board.of(Side::dark)) != 0;
}

std::optional<CubeValues> ThreeCheckerTable::values(const Board& board, Side on_roll) const {
  const std::size_t at = cell(board, on_roll);
  const ThreeCheckerCube& cube = cubes_[at];
  if (std::isnan(cube.theirs + cube.hold_mine + cube.hold_centred)) return std::nullopt;
  return CubeValues{wins_[at], cube.hold_centred, cube.hold_mine, cube.theirs};
}

std::size_t ThreeCheckerTable::cell(const Board& board, Side on_roll) const {
  return std::size_t{index_.rank(board.of(on_roll))} * index_.size() +
         index_.rank(board.of(opponent(on_roll)));
}

}  // namespace pointwright

#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <span>

#include "chance/table_build.hpp"
#include "chance/three_checker_plays.hpp"
#include "chance/two_sided_cube.hpp"
#include "rules/board.hpp"

namespace pointwright {

/// Cube equities of one pair, as in CubeValues. Not a number where the cube has no value.
struct ThreeCheckerCube {
  float theirs;
  float hold_mine;
  float hold_centred;
};

/// How a three-checker solution came out.
struct ThreeCheckerReport {
  bool complete = false;     ///< false if the host stopped it or did not take the results
  int win_sweeps = 0;        ///< passes over the board until the win chances settled
  int held_sweeps = 0;       ///< the same for the cube on one side
  int centred_sweeps = 0;    ///< the same for the cube in the middle
  double win_residual = 0;   ///< every win chance lies within this of the one stored
  double cube_residual = 0;  ///< every equity that has a value lies within this of the one stored
  std::size_t pairs = 0;     ///< pairs of positions that can stand on a board
  std::size_t without_value = 0;  ///< of those, the pairs without a value for some cube
};

/// Bounds that stay farther apart than this are no value.
inline constexpr float three_checker_gap = 1e-4F;

/// Solves every position in which each side has at most index.most() checkers left (three, or two
/// or one for a smaller solution of the same kind), on the points, the bar or off, hits and
/// entering included. Gammons cannot happen: both sides have twelve off or more.
///
/// The values are found between two bounds that close in on each other. The lower bound is what the
/// side on roll gets if a game that outlasts every number of rolls counts as lost at the stake it
/// has reached, the upper one if it counts as won. Without the cube both meet. With it there can be
/// positions in which both sides go on doubling while the game goes on hitting, so that the stake
/// grows faster than the game ends: there the bounds stay apart, no expectation exists, and the
/// result is not a number.
///
/// `take_wins` receives the win chances of the side on roll, then `take_cubes` the equities; both
/// in the order [rank on roll][rank waiting], row by row, index.size() rows of as many. They return
/// whether to go on. Holds 172 MB of bounds and about 20 MB beside them.
ThreeCheckerReport solve_three_checkers(
    const ThreeCheckers& index, const std::function<bool(std::span<const float> row)>& take_wins,
    const std::function<bool(std::span<const ThreeCheckerCube> row)>& take_cubes,
    const BuildHost& host);

/// A solved three-checker endgame.
class ThreeCheckerTable {
 public:
  /// Looks into rows that solve_three_checkers made, which must outlive the table.
  ThreeCheckerTable(int most, std::span<const float> wins, std::span<const ThreeCheckerCube> cubes)
      : index_(most), wins_(wins), cubes_(cubes) {}

  /// Whether both sides have at most so many checkers left, and neither is off.
  [[nodiscard]] bool covers(const Board& board) const;

  /// Chance that `on_roll` wins, without a cube. Precondition: covers(board).
  [[nodiscard]] double win(const Board& board, Side on_roll) const {
    return wins_[cell(board, on_roll)];
  }
  /// Win chance and equities; nothing where some cube has no value (see solve_three_checkers).
  /// Precondition: covers(board).
  [[nodiscard]] std::optional<CubeValues> values(const Board& board, Side on_roll) const;

  [[nodiscard]] const ThreeCheckers& index() const { return index_; }
  [[nodiscard]] double win(std::uint32_t on_roll, std::uint32_t waiting) const {
    return wins_[std::size_t{on_roll} * index_.size() + waiting];
  }

 private:
  [[nodiscard]] std::size_t cell(const Board& board, Side on_roll) const;

  ThreeCheckers index_;
  std::span<const float> wins_;
  std::span<const ThreeCheckerCube> cubes_;
};

}  // namespace pointwright

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "rules/fault.hpp"
#include "rules/result.hpp"

namespace pointwright::chance {

/// The assumptions behind a computed match table. All games start level (chance 1/2).
///
/// The defaults are those that come closest, on average over 15 x 15 cells, to the empirical table
/// in Kit Woolsey, How to Play Tournament Backgammon, 1993; docs/match-table.md gives the
/// comparison. They describe the games behind that table, not a law of nature.
struct MatchModel {
  double gammons = 0.20;      ///< share of games won that are gammons, if played to the end
  double backgammons = 0.01;  ///< share that are backgammons, not counted among the gammons
  double cube_life = 0.90;    ///< 0: nobody redoubles; 1: every cube is used to the full
};

/// The chance of winning a match, for every number of points that both sides still need.
class MatchTable {
 public:
  static constexpr int largest_size = 25;

  /// Computes the table by recursion over the score. A game is valued as a mixture, by `cube_life`,
  /// of a game with a dead cube (played to the end at the value it has) and of one with a fully
  /// live cube, in which the chance of winning moves without jumps, so that each double comes
  /// exactly at the other side's drop point (E. Keeler and J. Spencer, "Optimal Doubling in
  /// Backgammon", Operations Research 23(6), 1975, applied here to points of a match). The Crawford
  /// game is played without a cube; after it the side behind doubles at once and is always taken.
  static MatchTable computed(const MatchModel& model = {}, int size = largest_size);

  /// Reads a table from CSV: n lines of n percentages, row = points that the side needs, column =
  /// points that the other side needs; lines starting with # are comments. A line `after-crawford`
  /// followed by n percentages gives the chances of a side that needs 1, 2 ... n points against one
  /// that needs 1 once the Crawford game is over; without it they are computed. Opposite cells must
  /// add up to 100 within 2.5 (published tables are rounded).
  static Result<MatchTable, Faults> read_csv(std::string_view csv);

  /// The table as CSV that `read_csv` reads back, in percent with four decimals.
  [[nodiscard]] std::string to_csv() const;

  /// Points needed go from 1 to this.
  [[nodiscard]] int size() const { return size_; }

  /// The chance (0 to 1) for the side that needs `mine` against `theirs`; if either needs 1 and the
  /// other more, the game to come is the Crawford game. 0 or less needed: the match is over.
  /// Precondition: neither is greater than size().
  [[nodiscard]] double chance(int mine, int theirs) const;

  /// The chance of the side that needs `mine` against one that needs 1, after the Crawford game.
  [[nodiscard]] double after_crawford(int mine) const;

 private:
  friend class MatchTableBuilder;
  int size_ = 0;
  std::vector<double> cells_;           ///< row by row
  std::vector<double> after_crawford_;  ///< [mine - 1]
};

/// The computed table of the default model, made at first use.
const MatchTable& standard_match_table();

}  // namespace pointwright::chance

#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>

#include "chance/race.hpp"
#include "table_store/table_store.hpp"

namespace pointwright::app {

/// Where built tables are kept unless a verb is told otherwise: $POINTWRIGHT_TABLES, else the
/// folder pointwright/tables of the user's data ($XDG_DATA_HOME, or .local/share at home), else the
/// working folder.
std::filesystem::path tables_folder();

/// The most checkers that a side may have left in the three-checker endgame.
inline constexpr int three_checker_most = 3;
/// Its chances lie within this of the truth: docs/endings.md states the residual that was reached.
inline constexpr double three_checker_error = 1e-5;

/// The tables of endings that this computer has: those made in memory, and the large ones in a
/// folder, each opened and checked when first needed.
class EndingTables {
 public:
  explicit EndingTables(std::filesystem::path folder) : folder_(std::move(folder)) {}

  /// What can be said about a race, from the best table that covers it.
  Result<RaceAnswer, NoRace> race(const Board& board, Side on_roll);

  /// The three-checker endgame; null if it has not been built, or its file is damaged.
  const ThreeCheckerTable* three_checkers();

  /// Tables that are there and cannot be used, and why; empty if there is none.
  [[nodiscard]] const std::string& fault() const { return fault_; }

 private:
  const TwoSidedTable<float>* large(const Board& board);

  std::filesystem::path folder_;
  std::map<int, std::optional<StoredTwoSided>> two_sided_;
  bool tried_three_ = false;
  std::optional<StoredThreeChecker> three_;
  std::string fault_;
};

}  // namespace pointwright::app

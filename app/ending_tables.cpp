#include "app/ending_tables.hpp"

#include <algorithm>
#include <cstdlib>
#include <system_error>

namespace pointwright::app {
namespace {

namespace fs = std::filesystem;

constexpr int checkers_in_memory = 6;
constexpr int most_stored_checkers = 10;

const char* set(const char* variable) {
  const char* value = std::getenv(variable);  // NOLINT(concurrency-mt-unsafe): one thread reads it
  return value != nullptr && *value != '\0' ? value : nullptr;
}

bool is_there(const fs::path& path) {
  std::error_code ignored;
  return fs::exists(path, ignored);
}

}  // namespace

fs::path tables_folder() {
  if (const char* folder = set("POINTWRIGHT_TABLES")) return folder;
  if (const char* data = set("XDG_DATA_HOME")) return fs::path(data) / "pointwright" / "tables";
  if (const char* home = set("HOME")) {
    return fs::path(home) / ".local" / "share" / "pointwright" / "tables";
  }
  return ".";
}

const TwoSidedTable<float>* EndingTables::large(const Board& board) {
  if (!all_home(board, Side::light) || !all_home(board, Side::dark)) return nullptr;
  const int most = checkers_per_side - std::min(board.count(Side::light, off_place),
                                                board.count(Side::dark, off_place));
  if (most <= checkers_in_memory) return nullptr;  // solved in memory, and to more figures
  for (int checkers = most; checkers <= most_stored_checkers; ++checkers) {
    const auto [entry, is_new] = two_sided_.try_emplace(checkers);
    if (is_new) {
      const fs::path path = folder_ / two_sided_name(checkers);
      if (!is_there(path)) continue;
      auto opened = StoredTwoSided::open(path, checkers);
      if (opened.ok()) {
        entry->second = std::move(opened.value());
      } else {
        fault_ = opened.error().reason;
      }
    }
    if (entry->second) return &entry->second->table();
  }
  return nullptr;
}

Result<RaceAnswer, NoRace> EndingTables::race(const Board& board, Side on_roll) {
  auto answer = race_answer(board, on_roll, {.large = large(board)});
  if (!answer.ok() || answer->win_known.kind == Certainty::Kind::exact) return answer;
  // Checkers outside home are beyond the tables of races, but not beyond that of three checkers.
  const int most = checkers_per_side - std::min(board.count(Side::light, off_place),
                                                board.count(Side::dark, off_place));
  if (most > three_checker_most) return answer;
  const ThreeCheckerTable* table = three_checkers();
  if (table == nullptr || !table->covers(board)) return answer;
  answer.value().win = table->win(board, on_roll);
  answer.value().cube = table->values(board, on_roll);
  answer.value().win_known = {
      Certainty::Kind::exact, three_checker_error,
      "every position of the endgame with three checkers a side was solved"};
  return answer;
}

const ThreeCheckerTable* EndingTables::three_checkers() {
  if (!tried_three_) {
    tried_three_ = true;
    const fs::path path = folder_ / three_checker_name();
    if (is_there(path)) {
      auto opened = StoredThreeChecker::open(path);
      if (opened.ok()) {
        three_ = std::move(opened.value());
      } else {
        fault_ = opened.error().reason;
      }
    }
  }
  return three_ ? &three_->table() : nullptr;
}

}  // namespace pointwright::app

#include "chance/match_table.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "chance/match_cube.hpp"
#include "rules/text.hpp"

namespace pointwright::chance {

/// Fills tables cell by cell, the scores nearest to the end of the match first.
class MatchTableBuilder {
 public:
  MatchTableBuilder(const MatchModel& model, int size) : model_(model) {
    table_.size_ = size;
    table_.cells_.assign(static_cast<std::size_t>(size) * static_cast<std::size_t>(size), 0.5);
    table_.after_crawford_.assign(static_cast<std::size_t>(size), 0.5);
  }

  MatchTable run() {
    fill_after_crawford();
    for (int needed = 2; needed <= table_.size_; ++needed) set(needed, 1, crawford_game(needed));
    for (int sum = 4; sum <= 2 * table_.size_; ++sum) {
      for (int mine = std::max(2, sum - table_.size_); mine <= sum / 2; ++mine)
        set(mine, sum - mine, game({mine, sum - mine, false}));
    }
    return table_;
  }

  static MatchTable from(int size, std::vector<double> cells, std::vector<double> after_crawford) {
    MatchTableBuilder builder(MatchModel{}, size);
    builder.fill_after_crawford();
    builder.table_.cells_ = std::move(cells);
    if (!after_crawford.empty()) builder.table_.after_crawford_ = std::move(after_crawford);
    return builder.table_;
  }

 private:
  void set(int mine, int theirs, double chance) {
    cell(mine, theirs) = chance;
    cell(theirs, mine) = mine == theirs ? 0.5 : 1.0 - chance;
  }

  double& cell(int mine, int theirs) {
    return table_.cells_[static_cast<std::size_t>((mine - 1) * table_.size_ + theirs - 1)];
  }

  /// The value of half a game at cube `cube` for the side behind, which loses all if it loses.
  [[nodiscard]] double won_at(int needed, int cube) const {
    const double singles = 1 - model_.gammons - model_.backgammons;
    return singles * table_.after_crawford(needed - cube) +
           model_.gammons * table_.after_crawford(needed - 2 * cube) +
           model_.backgammons * table_.after_crawford(needed - 3 * cube);
  }

  void fill_after_crawford() {
    for (int needed = 2; needed <= table_.size_; ++needed)
      table_.after_crawford_[static_cast<std::size_t>(needed - 1)] = won_at(needed, 2) / 2;
  }

  [[nodiscard]] double crawford_game(int needed) const { return won_at(needed, 1) / 2; }

  /// A game from a level start with the cube in the middle.
  [[nodiscard]] double game(const Needs& needs) const {
    const GammonShares shares{model_.gammons, model_.backgammons, model_.gammons,
                              model_.backgammons};
    const GameEnds ends = game_ends(table_, needs, 1);
    const double dead = (ends.average_win(shares.mine, shares.my_backgammons) +
                         ends.average_loss(shares.theirs, shares.their_backgammons)) /
                        2;
    const double drop_point = live_cube_mine(table_, needs, 2, shares).where(ends.lose);
    const double cash_point = live_cube_theirs(table_, needs, 2, shares).where(ends.win);
    const double live =
        Piecewise({{drop_point, ends.lose}, {std::max(cash_point, drop_point), ends.win}})
            .at(std::clamp(0.5, drop_point, std::max(cash_point, drop_point)));
    return model_.cube_life * live + (1 - model_.cube_life) * dead;
  }

  MatchModel model_;
  MatchTable table_;
};

MatchTable MatchTable::computed(const MatchModel& model, int size) {
  return MatchTableBuilder(model, std::clamp(size, 1, largest_size)).run();
}

double MatchTable::chance(int mine, int theirs) const {
  if (mine <= 0) return 1.0;
  if (theirs <= 0) return 0.0;
  return cells_[static_cast<std::size_t>((mine - 1) * size_ + theirs - 1)];
}

double MatchTable::after_crawford(int mine) const {
  return mine <= 0 ? 1.0 : after_crawford_[static_cast<std::size_t>(mine - 1)];
}

const MatchTable& standard_match_table() {
  static const MatchTable table = MatchTable::computed();
  return table;
}

namespace {

/// A percentage such as 41, 41.7 or 41.6667; std::from_chars for double is missing from
/// WebAssembly.
std::optional<double> read_percent(std::string_view word) {
  if (word.ends_with('%')) word.remove_suffix(1);
  const auto point = word.find('.');
  const std::string_view whole = word.substr(0, point);
  const auto value = text::number(whole, 100);
  if (!value) return std::nullopt;
  auto percent = static_cast<double>(*value);
  if (point != std::string_view::npos) {
    const std::string_view decimals = word.substr(point + 1);
    const auto part = text::number(decimals, 1'000'000'000'000);
    if (!part) return std::nullopt;
    percent += static_cast<double>(*part) / std::pow(10.0, static_cast<double>(decimals.size()));
  }
  return percent <= 100 ? std::optional(percent) : std::nullopt;
}

void append_percent(std::string& csv, double chance) {
  const long parts = std::lround(chance * 1'000'000);
  const std::string decimals = std::to_string(parts % 10'000);
  csv += std::to_string(parts / 10'000) + "." + std::string(4 - decimals.size(), '0') + decimals;
}

struct CsvLine {
  std::vector<double> values;
  TextSpan where;
};

}  // namespace

std::string MatchTable::to_csv() const {
  std::string csv =
      "# chance to win the match, per cent: row = points needed, column = points the "
      "other side needs\n";
  for (int mine = 1; mine <= size_; ++mine) {
    for (int theirs = 1; theirs <= size_; ++theirs) {
      if (theirs > 1) csv += ",";
      append_percent(csv, chance(mine, theirs));
    }
    csv += "\n";
  }
  csv += "after-crawford";
  for (int mine = 1; mine <= size_; ++mine) {
    csv += ",";
    append_percent(csv, after_crawford(mine));
  }
  return csv + "\n";
}

Result<MatchTable, Faults> MatchTable::read_csv(std::string_view csv) {
  constexpr std::size_t longest_csv = 100'000;
  constexpr double rounding = 2.5;
  Faults faults;
  const auto fault = [&](std::string_view id, TextSpan where, std::string reason, std::string fix) {
    faults.push_back({id, where, std::move(reason), std::move(fix)});
  };
  if (csv.size() > longest_csv) {
    fault("match-table-too-long", {longest_csv, csv.size()}, "the table is too long",
          "a table has at most 25 lines of 25 percentages");
    return faults;
  }

  std::vector<CsvLine> rows;
  std::optional<CsvLine> after_crawford;
  for (const TextSpan line_span : text::split(csv, {0, csv.size()}, '\n')) {
    const auto words = text::words(csv, line_span, false);
    if (words.empty() || words.front().text.starts_with('#')) continue;
    CsvLine line{{}, line_span};
    bool names_itself = false;
    for (const TextSpan field : text::split(csv, line_span, ',')) {
      const auto inside = text::words(csv, field, false);
      if (line.values.empty() && inside.size() == 1 && inside[0].text == "after-crawford") {
        names_itself = true;
        continue;
      }
      const auto value = inside.size() == 1 ? read_percent(inside[0].text) : std::nullopt;
      if (!value) {
        fault("match-table-number", field,
              text::quoted(csv.substr(field.begin, field.end - field.begin)) +
                  " is not a percentage from 0 to 100",
              "write a number such as 41 or 41.7");
        return faults;
      }
      line.values.push_back(*value / 100);
    }
    if (names_itself)
      after_crawford = std::move(line);
    else
      rows.push_back(std::move(line));
  }

  const std::size_t size = rows.size();
  if (size < 1 || size > largest_size) {
    fault("match-table-size", {0, csv.size()}, "the table has " + std::to_string(size) + " rows",
          "write 1 to 25 rows");
    return faults;
  }
  if (after_crawford) rows.push_back(*after_crawford);
  for (const CsvLine& row : rows) {
    if (row.values.size() == size) continue;
    fault("match-table-row", row.where,
          "this row has " + std::to_string(row.values.size()) + " percentages and the table has " +
              std::to_string(size) + " rows",
          "write as many columns as rows");
  }
  if (!faults.empty()) return faults;

  std::vector<double> cells;
  for (std::size_t i = 0; i < size; ++i) {
    for (std::size_t j = 0; j < size; ++j) {
      cells.push_back(rows[i].values[j]);
      const double sum = 100 * (rows[i].values[j] + rows[j].values[i]);
      if (j < i || std::abs(sum - 100) <= rounding) continue;
      fault("match-table-sum", rows[i].where,
            "needing " + std::to_string(i + 1) + " against " + std::to_string(j + 1) +
                " and the reverse do not add up to 100",
            "check the two cells");
    }
  }
  if (!faults.empty()) return faults;
  return MatchTableBuilder::from(static_cast<int>(size), std::move(cells),
                                 after_crawford ? after_crawford->values : std::vector<double>{});
}

}  // namespace pointwright::chance

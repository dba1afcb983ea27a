#include "tests/reference/reference.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>
#include <vector>

namespace pointwright::reference {
namespace {

constexpr int bar = 25;
constexpr int off = 0;

/// The checkers as the mover counts the points, for both sides. A place that holds none is absent.
struct Table {
  std::map<int, int> mine;    // 25 is the bar, 0 is off
  std::map<int, int> theirs;  // 1 to 24 only
  int their_bar = 0;
  int their_off = 0;
};

int checkers_on(const std::map<int, int>& checkers, int place) {
  const auto found = checkers.find(place);
  return found == checkers.end() ? 0 : found->second;
}

void take_one(std::map<int, int>& checkers, int place) {
  if (--checkers[place] == 0) checkers.erase(place);
}

bool any_above(const std::map<int, int>& checkers, int place) {
  return std::ranges::any_of(checkers, [&](const auto& entry) { return entry.first > place; });
}

/// The table after one checker moves by one die; nothing where the rules refuse that.
std::optional<Table> moved(const Table& before, int from, int die) {
  // A side moves its own checkers, and those on the bar before any other.
  if (checkers_on(before.mine, from) == 0) return std::nullopt;
  if (checkers_on(before.mine, bar) > 0 && from != bar) return std::nullopt;

  const int to = from - die;
  if (to >= 1) {
    // A point that two or more of the other side hold is closed; one alone is hit.
    if (checkers_on(before.theirs, to) >= 2) return std::nullopt;
    Table table = before;
    if (checkers_on(table.theirs, to) == 1) {
      take_one(table.theirs, to);
      ++table.their_bar;
    }
    take_one(table.mine, from);
    ++table.mine[to];
    return table;
  }

  // Bearing off: all checkers home; with the exact die, or with a larger one from the highest
  // point.
  if (any_above(before.mine, 6)) return std::nullopt;
  if (to < 0 && any_above(before.mine, from)) return std::nullopt;
  Table table = before;
  take_one(table.mine, from);
  ++table.mine[off];
  return table;
}

/// Some moves made one after another, whether or not a turn may end there.
struct Sequence {
  std::vector<int> dice;
  Table table;
};

/// Adds to `all` every sequence that starts with `so_far` and goes on with dice of `rest`, in
/// order.
void try_all(const Sequence& so_far, const std::vector<int>& rest, std::vector<Sequence>& all) {
  all.push_back(so_far);
  if (rest.empty()) return;
  for (int from = 1; from <= bar; ++from) {
    std::optional<Table> table = moved(so_far.table, from, rest.front());
    if (!table) continue;
    Sequence longer{so_far.dice, *std::move(table)};
    longer.dice.push_back(rest.front());
    try_all(longer, {rest.begin() + 1, rest.end()}, all);
  }
}

Table table_of(const Board& board, Side side) {
  Table table;
  const Camp& mine = board.of(side);
  const Camp& theirs = board.of(opponent(side));
  for (std::size_t place = off; place <= bar; ++place) {
    if (mine.at(place) > 0) table.mine[static_cast<int>(place)] = mine.at(place);
  }
  for (std::size_t point = 1; point <= 24; ++point) {
    if (theirs.at(25 - point) > 0) table.theirs[static_cast<int>(point)] = theirs.at(25 - point);
  }
  table.their_bar = theirs.at(bar_place);
  table.their_off = theirs.at(off_place);
  return table;
}

Board board_of(const Table& table, Side side) {
  Board board;
  const auto put = [&board](Side owner, int place, int n) {
    board.of(owner).at(static_cast<std::size_t>(place)) = static_cast<std::uint8_t>(n);
  };
  for (const auto& [place, n] : table.mine) put(side, place, n);
  for (const auto& [point, n] : table.theirs) put(opponent(side), 25 - point, n);
  put(opponent(side), bar, table.their_bar);
  put(opponent(side), off, table.their_off);
  return board;
}

}  // namespace

Boards results(const Board& board, Side side, Roll roll) {
  std::vector<int> dice = {roll.low(), roll.high()};
  if (roll.is_double()) dice = std::vector<int>(4, roll.high());

  std::vector<Sequence> all;
  do {
    try_all({{}, table_of(board, side)}, dice, all);
  } while (std::ranges::next_permutation(dice).found);

  // As many dice as can be used must be used.
  std::size_t most = 0;
  for (const Sequence& sequence : all) most = std::max(most, sequence.dice.size());
  std::erase_if(all, [&](const Sequence& sequence) { return sequence.dice.size() < most; });
  if (most == 0) return {};

  // Where only one of two dice can be used, it is the larger one if that is possible.
  if (most == 1 && !roll.is_double()) {
    const std::vector<int> larger_alone{roll.high()};
    const bool larger_possible = std::ranges::any_of(
        all, [&](const Sequence& sequence) { return sequence.dice == larger_alone; });
    if (larger_possible) {
      std::erase_if(all, [&](const Sequence& sequence) { return sequence.dice != larger_alone; });
    }
  }

  Boards boards;
  for (const Sequence& sequence : all) boards.insert(board_of(sequence.table, side));
  return boards;
}

}  // namespace pointwright::reference

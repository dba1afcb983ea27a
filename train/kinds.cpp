#include "train/kinds.hpp"

#include <algorithm>

namespace pointwright::train {
namespace {

constexpr std::array<std::string_view, all_kinds.size()> names{
    "opening", "middle game", "attack", "prime", "holding game", "back game", "bear-in", "race"};

int checkers_moved(const Board& board) {
  const Board start = starting_board();
  int moved = 0;
  for (const Side side : {Side::light, Side::dark}) {
    for (std::size_t place = 0; place < start.of(side).size(); ++place)
      moved += std::max(0, start.of(side)[place] - board.of(side)[place]);
  }
  return moved;
}

int count_within(const Camp& camp, int first, int last) {
  int count = 0;
  for (int place = first; place <= last; ++place) count += camp[static_cast<std::size_t>(place)];
  return count;
}

/// Points of the other side's home board that this side holds.
int anchors(const Camp& camp, int first = 19, int last = 24) {
  return static_cast<int>(
      std::count_if(camp.begin() + first, camp.begin() + last + 1, [](int n) { return n >= 2; }));
}

bool is_bear_in(const Camp& mine) {
  return count_within(mine, 13, bar_place) == 0;
}

bool plays_back_game(const Board& board, Side side) {
  return anchors(board.of(side)) >= 2 &&
         pip_count(board, side) - pip_count(board, opponent(side)) >= 40;
}

bool primes(const Board& board, Side side) {
  const Camp& mine = board.of(side);
  const Camp& theirs = board.of(opponent(side));
  for (int rear = 0; rear <= 20; ++rear) {
    // An opposing checker on my point `rear`, or on the bar behind my 1-point.
    if (theirs[static_cast<std::size_t>(bar_place - rear)] == 0) continue;
    int run = 0;
    for (int point = rear + 1; point <= std::min(24, rear + 6); ++point) {
      run = mine[static_cast<std::size_t>(point)] >= 2 ? run + 1 : 0;
      if (run >= 4) return true;
    }
  }
  return false;
}

bool is_attacked(const Board& board, Side side) {
  const Camp& mine = board.of(side);
  const bool loose = mine[bar_place] > 0 || std::any_of(mine.begin() + 19, mine.begin() + 25,
                                                        [](int n) { return n == 1; });
  return loose && anchors(mine) == 0 && count_within(board.of(opponent(side)), 1, 12) >= 10;
}

bool is_holding(const Board& board, Side side) {
  const Side other = opponent(side);
  return anchors(board.of(side), 18, 22) >= 1 &&
         (rearmost(board, other) <= 18 || anchors(board.of(other), 18, 22) >= 1);
}

template <class Test>
bool either(const Board& board, const Test& test) {
  return test(board, Side::light) || test(board, Side::dark);
}

}  // namespace

std::string_view name(Kind kind) {
  return names[static_cast<std::size_t>(kind)];
}

std::optional<Kind> kind_named(std::string_view name) {
  const auto found = std::find(names.begin(), names.end(), name);
  if (found == names.end()) return std::nullopt;
  return all_kinds[static_cast<std::size_t>(found - names.begin())];
}

Kind kind_of(const Board& board) {
  if (!has_contact(board)) return Kind::race;
  if (checkers_moved(board) <= 6) return Kind::opening;
  if (is_bear_in(board.of(Side::light)) || is_bear_in(board.of(Side::dark))) return Kind::bear_in;
  if (either(board, plays_back_game)) return Kind::back_game;
  if (either(board, primes)) return Kind::prime;
  if (either(board, is_attacked)) return Kind::attack;
  if (either(board, is_holding)) return Kind::holding_game;
  return Kind::middle_game;
}

}  // namespace pointwright::train

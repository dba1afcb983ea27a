#include "finder/search.hpp"

#include <algorithm>

namespace pointwright::finder {

std::vector<std::optional<Roll>> open_rolls(const Wanted& wanted) {
  if (!wanted.query.needs_roll() && !wanted.roll) return {std::nullopt};
  std::vector<std::optional<Roll>> rolls;
  Facts facts(wanted.side);
  for (const Roll roll : all_rolls()) {
    if (wanted.roll && roll != *wanted.roll) continue;
    facts.look_at(Board{}, roll, knows_roll);
    if (wanted.query.truth(facts) != Truth::no) rolls.emplace_back(roll);
  }
  return rolls;
}

int difference(const Finding& a, const Finding& b) {
  int moved = a.roll == b.roll ? 0 : 1;
  for (const Side side : {Side::light, Side::dark}) {
    for (std::size_t place = 0; place <= bar_place; ++place)
      moved += std::max(0, a.board.of(side)[place] - b.board.of(side)[place]);
  }
  return moved;
}

}  // namespace pointwright::finder

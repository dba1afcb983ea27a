#include "judge/position_valuation.hpp"

#include <algorithm>

#include "chance/match_table.hpp"
#include "rules/score.hpp"

namespace pointwright::judge {

std::optional<Valuation> valuation_of(const Position& position, Side side) {
  if (position.match) {
    if (match_over(*position.match)) return std::nullopt;
    const chance::Needs needs = chance::needs(*position.match, side);
    const chance::MatchTable& table = chance::standard_match_table();
    if (std::max(needs.mine, needs.theirs) > table.size()) return std::nullopt;
    return Valuation::match(table, needs, position.cube.value);
  }
  const bool gammons_count =
      points_won(WinKind::gammon, position.cube, position.house, false) > position.cube.value;
  return gammons_count ? Valuation::money() : Valuation::singles();
}

}  // namespace pointwright::judge

#include "judge/valuation.hpp"

namespace pointwright::judge {

Valuation Valuation::match(const chance::MatchTable& table, const chance::Needs& needs,
                           std::uint64_t cube) {
  const chance::GameEnds ends = chance::game_ends(table, needs, cube);
  const double half = (ends.win - ends.lose) / 2;
  const auto scaled = [&](double better, double worse) {
    return static_cast<float>((better - worse) / half);
  };
  return {-1,
          2,
          scaled(ends.win_gammon, ends.win),
          scaled(ends.win_backgammon, ends.win_gammon),
          scaled(ends.lose_gammon, ends.lose),
          scaled(ends.lose_backgammon, ends.lose_gammon)};
}

}  // namespace pointwright::judge

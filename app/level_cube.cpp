#include "app/level_cube.hpp"

#include <algorithm>

#include "chance/match_cube.hpp"
#include "chance/money_cube.hpp"
#include "judge/position_valuation.hpp"

namespace pointwright::app {
namespace {

/// How live the cube is taken to be: two thirds is common practice for positions with contact
/// (Rick Janowski, "Take-Points in Money Games", 1993; from memory).
constexpr double usual_life = 2.0 / 3.0;

/// What a win and a loss are worth on average, in units of the cube, to the side of the chances.
chance::GameValues values_of(const judge::Chances& chances, bool gammons_count) {
  if (!gammons_count) return {};
  const auto average = [](float all, float gammons, float backgammons) {
    if (all <= 0) return 1.0;
    return std::min(3.0, 1 + static_cast<double>(gammons + backgammons) / static_cast<double>(all));
  };
  return {average(chances.win, chances.win_gammon, chances.win_backgammon),
          average(1 - chances.win, chances.lose_gammon, chances.lose_backgammon)};
}

chance::GammonShares shares_of(const judge::Chances& chances) {
  const auto share = [](float part, float all) {
    return all <= 0 ? 0.0 : std::clamp(static_cast<double>(part / all), 0.0, 1.0);
  };
  const float lose = 1 - chances.win;
  return {share(chances.win_gammon - chances.win_backgammon, chances.win),
          share(chances.win_backgammon, chances.win),
          share(chances.lose_gammon - chances.lose_backgammon, lose),
          share(chances.lose_backgammon, lose)};
}

chance::ScoreDecision at_score(const Position& position, const judge::Chances& chances) {
  const chance::Needs taker = chance::needs(*position.match, opponent(*position.turn));
  return chance::decide_at_score(chance::standard_match_table(), taker, position.cube.value,
                                 shares_of(chances.reversed()));
}

/// Whether gammons count once the cube has been turned.
bool gammons_count_doubled(const Position& position) {
  return position.house.gammons;
}

}  // namespace

bool should_take(const Position& position, const judge::Chances& chances) {
  const double takers = 1 - static_cast<double>(chances.win);
  if (position.match) {
    const chance::ScoreDecision decision = at_score(position, chances);
    return takers >= (decision.dead_take_point + decision.live_take_point) / 2;
  }
  const chance::GameValues values = values_of(chances.reversed(), gammons_count_doubled(position));
  return takers >= chance::take_point(values, usual_life);
}

bool should_double(const Position& position, const judge::Chances& chances) {
  const auto win = static_cast<double>(chances.win);
  const bool takes = should_take(position, chances);
  // Too good: playing on for a gammon is worth more than the point of a drop.
  const auto valuation = judge::valuation_of(position, *position.turn);
  if (!takes) return !valuation || valuation->equity(chances) < 1;
  if (position.match) {
    const chance::ScoreDecision decision = at_score(position, chances);
    const double drop = 1 - (decision.dead_take_point + decision.live_take_point) / 2;
    return win >= (decision.double_point + drop) / 2;
  }
  const chance::GameValues values = values_of(chances, gammons_count_doubled(position));
  const double from = position.cube.holder
                          ? chance::redoubling_point(values, usual_life)
                          : chance::doubling_point(values, usual_life, position.house.jacoby);
  return win >= from;
}

}  // namespace pointwright::app

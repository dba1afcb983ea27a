#include "chance/match_cube.hpp"

#include <algorithm>

namespace pointwright::chance {
namespace {

double safe_ratio(double part, double whole) {
  return whole > 0 ? part / whole : 1.0;
}

}  // namespace

Needs needs(const MatchScore& score, Side side) {
  const int mine = score.length - score.points[index(side)];
  const int theirs = score.length - score.points[index(opponent(side))];
  return {mine, theirs, (mine == 1 || theirs == 1) && !score.crawford};
}

double chance_after(const MatchTable& table, const Needs& needs, std::int64_t mine,
                    std::int64_t theirs) {
  const std::int64_t left = needs.mine - mine;
  const std::int64_t their_left = needs.theirs - theirs;
  if (left <= 0) return 1.0;
  if (their_left <= 0) return 0.0;
  const int a = static_cast<int>(left);
  const int b = static_cast<int>(their_left);
  // The game in hand is the Crawford game, or comes after it, if somebody needs one point already.
  const bool crawford_behind = needs.mine == 1 || needs.theirs == 1;
  if (crawford_behind && (needs.mine > 1 || needs.theirs > 1 || needs.after_crawford)) {
    if (b == 1) return table.after_crawford(a);
    if (a == 1) return 1.0 - table.after_crawford(b);
  }
  return table.chance(a, b);
}

double GameEnds::average_win(double gammons, double backgammons) const {
  return (1 - gammons - backgammons) * win + gammons * win_gammon + backgammons * win_backgammon;
}

double GameEnds::average_loss(double gammons, double backgammons) const {
  return (1 - gammons - backgammons) * lose + gammons * lose_gammon + backgammons * lose_backgammon;
}

GameEnds game_ends(const MatchTable& table, const Needs& needs, std::uint64_t cube) {
  const auto points = static_cast<std::int64_t>(cube);
  return {chance_after(table, needs, points, 0),     chance_after(table, needs, 2 * points, 0),
          chance_after(table, needs, 3 * points, 0), chance_after(table, needs, 0, points),
          chance_after(table, needs, 0, 2 * points), chance_after(table, needs, 0, 3 * points)};
}

double gammon_value(const GameEnds& ends) {
  return ends.win > ends.lose ? (ends.win_gammon - ends.win) / (ends.win - ends.lose) : 0;
}

Piecewise live_cube_mine(const MatchTable& table, const Needs& needs, std::uint64_t cube,
                         const GammonShares& shares) {
  const GameEnds ends = game_ends(table, needs, cube);
  const double win = ends.average_win(shares.mine, shares.my_backgammons);
  const double lose = ends.average_loss(shares.theirs, shares.their_backgammons);
  if (cube >= static_cast<std::uint64_t>(needs.mine)) return Piecewise({{0, lose}, {1, win}});
  const double cash = ends.win;
  const double cash_point = live_cube_theirs(table, needs, 2 * cube, shares).where(cash);
  return Piecewise({{0, lose}, {cash_point, cash}, {1, std::max(cash, win)}});
}

Piecewise live_cube_theirs(const MatchTable& table, const Needs& needs, std::uint64_t cube,
                           const GammonShares& shares) {
  const GameEnds ends = game_ends(table, needs, cube);
  const double win = ends.average_win(shares.mine, shares.my_backgammons);
  const double lose = ends.average_loss(shares.theirs, shares.their_backgammons);
  if (cube >= static_cast<std::uint64_t>(needs.theirs)) return Piecewise({{0, lose}, {1, win}});
  const double drop = ends.lose;
  const double drop_point = live_cube_mine(table, needs, 2 * cube, shares).where(drop);
  return Piecewise({{0, std::min(drop, lose)}, {drop_point, drop}, {1, win}});
}

ScoreDecision decide_at_score(const MatchTable& table, const Needs& taker, std::uint64_t cube,
                              const GammonShares& shares) {
  const GameEnds now = game_ends(table, taker, cube);
  const GameEnds doubled = game_ends(table, taker, 2 * cube);
  ScoreDecision decision;
  decision.cube = cube;
  decision.shares = shares;
  decision.now = now;
  decision.doubled = doubled;
  decision.drop = now.lose;
  decision.take_and_win = doubled.average_win(shares.mine, shares.my_backgammons);
  decision.take_and_lose = doubled.average_loss(shares.theirs, shares.their_backgammons);
  decision.dead_take_point = std::clamp(safe_ratio(decision.drop - decision.take_and_lose,
                                                   decision.take_and_win - decision.take_and_lose),
                                        0.0, 1.0);
  decision.live_take_point = live_cube_mine(table, taker, 2 * cube, shares).where(decision.drop);
  // The offering side risks what it loses more at the doubled cube, to gain what it wins more.
  const double risk = doubled.average_win(shares.mine, shares.my_backgammons) -
                      now.average_win(shares.mine, shares.my_backgammons);
  const double gain = now.average_loss(shares.theirs, shares.their_backgammons) -
                      doubled.average_loss(shares.theirs, shares.their_backgammons);
  decision.double_point = safe_ratio(risk, risk + gain);
  decision.gammon_value = doubled.win > doubled.lose
                              ? (doubled.lose - doubled.lose_gammon) / (doubled.win - doubled.lose)
                              : 0.0;
  decision.cube_is_dead = 2 * cube >= static_cast<std::uint64_t>(taker.mine);
  return decision;
}

}  // namespace pointwright::chance

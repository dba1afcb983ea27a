#include "web/opponent.hpp"

#include <algorithm>
#include <cmath>

#include "chance/match_cube.hpp"
#include "chance/money_cube.hpp"
#include "judge/position_valuation.hpp"
#include "judge/shipped.hpp"
#include "rules/cube.hpp"
#include "rules/notation.hpp"
#include "rules/score.hpp"

namespace pointwright::web {
namespace {

constexpr double cube_life = 2.0 / 3;  // common practice for games for points
constexpr double tiny = 1e-6;

bool gammons_count(const Position& position) {
  const bool jacoby = in_force(position.house, position.match.has_value()).jacoby;
  return position.house.gammons && (!jacoby || position.cube.value > 1);
}

double share(float part, double whole) {
  return whole < tiny ? 0 : std::clamp(part / whole, 0.0, 1.0);
}

chance::GameValues values_of(const judge::Chances& chances, bool gammons) {
  if (!gammons) return {};
  const double lose = 1 - chances.win;
  return {1 + share(chances.win_gammon, chances.win) + share(chances.win_backgammon, chances.win),
          1 + share(chances.lose_gammon, lose) + share(chances.lose_backgammon, lose)};
}

/// The decision in a match, seen by the taker; nothing where the score is beyond the match table.
std::optional<chance::ScoreDecision> at_score(const Position& position, Side taker,
                                              const judge::Chances& chances) {
  const chance::Needs needs = chance::needs(*position.match, taker);
  if (std::max(needs.mine, needs.theirs) > chance::MatchTable::largest_size) return std::nullopt;
  const double lose = 1 - chances.win;
  chance::GammonShares shares;
  if (position.house.gammons) {
    shares = {share(chances.win_gammon - chances.win_backgammon, chances.win),
              share(chances.win_backgammon, chances.win),
              share(chances.lose_gammon - chances.lose_backgammon, lose),
              share(chances.lose_backgammon, lose)};
  }
  return chance::decide_at_score(chance::standard_match_table(), needs, position.cube.value,
                                 shares);
}

std::string percent(double chance) {
  return std::to_string(std::lround(100 * chance)) + "%";
}

/// Estimated chances of the side to play, before its roll.
judge::Chances chances_of(const Position& position, Side side) {
  const judge::Chances on_roll =
      judge::shipped_evaluator().evaluate(position.board, *position.turn).chances;
  return side == *position.turn ? on_roll : on_roll.reversed();
}

Decision answer_offer(const Table& table, Side taker, const SideNames& names) {
  const judge::Chances chances = chances_of(table.position, taker);
  const double needed = take_point_at(table.position, chances);
  const bool takes = chances.win >= needed;
  return {{takes ? "take" : "drop"},
          false,
          names[taker] + (takes ? " takes: " : " drops: ") + "it estimates its chance at " +
              percent(chances.win) + ", and needs about " + percent(needed) + "."};
}

Decision before_roll(const Table& table, const SideNames& names) {
  const Position& position = table.position;
  const Side side = *position.turn;
  const CubeRuling ruling = may_offer(position, side);
  if (!ruling.allowed || ruling.dead) return {{}, true, ""};
  const judge::Chances chances = chances_of(position, side);
  const double from = offer_point_at(position, chances);
  const double drop = 1 - take_point_at(position, chances.reversed());
  // Too good to double: playing on for a gammon is worth more than the one point of a drop.
  const bool too_good = !position.match && gammons_count(position) && chances.equity() > 1;
  if (chances.win < from || too_good) return {{}, true, ""};
  return {{"offer"},
          false,
          names[side] + " doubles: it estimates its chance at " + percent(chances.win) +
              (chances.win > drop ? ", more than a taker should accept."
                                  : ", and doubles from about " + percent(from) + " on.")};
}

Decision play(const Table& table, const SideNames& names) {
  const std::vector<judge::RankedPlay> plays = rank_plays(table.position);
  if (plays.empty()) return {{"lift"}, false, names[*table.position.turn] + " has no legal move."};
  const std::string best = to_text(plays.front().play.play);
  std::string moves;
  for (const Move& move : plays.front().play.play)
    moves += (moves.empty() ? "" : " ") + to_text(move.from) + "/" + to_text(move.to);
  return {{"move " + moves, "lift"}, false, names[*table.position.turn] + " plays " + best + "."};
}

}  // namespace

double take_point_at(const Position& position, const judge::Chances& taker) {
  if (position.match) {
    const Side side = opponent(*position.turn);
    if (const auto decision = at_score(position, side, taker))
      return decision->cube_is_dead
                 ? decision->dead_take_point
                 : (decision->dead_take_point + 2 * decision->live_take_point) / 3;
  }
  return chance::take_point(values_of(taker, position.house.gammons), cube_life);
}

double offer_point_at(const Position& position, const judge::Chances& offerer) {
  if (position.match) {
    const Side taker = opponent(*position.turn);
    if (const auto decision = at_score(position, taker, offerer.reversed())) {
      // Between the first chance at which a last double gains and the taker's drop point.
      if (decision->cube_is_dead) return decision->double_point;
      const double drop = 1 - (decision->dead_take_point + 2 * decision->live_take_point) / 3;
      return (decision->double_point + 2 * drop) / 3;
    }
  }
  const bool owned = position.cube.holder.has_value();
  const bool jacoby = in_force(position.house, position.match.has_value()).jacoby;
  const chance::GameValues values = values_of(offerer, position.house.gammons);
  return owned ? chance::redoubling_point(values, cube_life)
               : chance::doubling_point(values, cube_life, jacoby);
}

judge::Valuation stakes_of(const Position& position) {
  return judge::valuation_of(position, *position.turn).value_or(judge::Valuation::money());
}

std::vector<judge::RankedPlay> rank_plays(const Position& position) {
  constexpr int depth = 1;
  static judge::Search search(judge::shipped_evaluator());
  const Side side = *position.turn;
  if (winner_of(position.board) || legal_plays(position.board, side, *position.roll).empty())
    return {};
  return search.rank(position.board, side, *position.roll, depth, stakes_of(position));
}

Decision decide(const Table& table, const SideNames& names) {
  switch (table.phase) {
    case Phase::to_roll:
      return before_roll(table, names);
    case Phase::offered:
      return answer_offer(table, opponent(*table.position.turn), names);
    case Phase::beavered:
      return {{"take"}, false, names[*table.position.turn] + " accepts the beaver."};
    case Phase::to_play:
      return play(table, names);
    case Phase::opening:
    case Phase::over:
      break;
  }
  return {};
}

}  // namespace pointwright::web

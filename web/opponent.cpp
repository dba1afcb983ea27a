#include "web/opponent.hpp"

#include <cmath>

#include "judge/position_valuation.hpp"
#include "judge/shipped.hpp"
#include "rules/cube.hpp"
#include "rules/notation.hpp"
#include "rules/score.hpp"
#include "web/cube_advice.hpp"

namespace pointwright::web {
namespace {

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
  const auto advice = advise_cube(table.position);
  const bool takes = !advice || advice->decision.reply != judge::CubeReply::drop;
  return {{takes ? "take" : "drop"},
          false,
          names[taker] + (takes ? " takes" : " drops") + ": it estimates its chance at " +
              percent(chances_of(table.position, taker).win) + "."};
}

Decision before_roll(const Table& table, const SideNames& names) {
  const Position& position = table.position;
  const Side side = *position.turn;
  const CubeRuling ruling = may_offer(position, side);
  if (!ruling.allowed || ruling.dead) return {{}, true, ""};
  const auto advice = advise_cube(position);
  if (!advice || advice->decision.action != judge::CubeAction::offer) return {{}, true, ""};
  return {{"offer"},
          false,
          names[side] + " doubles: it estimates its chance at " +
              percent(chances_of(position, side).win) +
              (advice->decision.reply == judge::CubeReply::drop
                   ? ", more than a taker should accept."
                   : ", enough to play for twice as much.")};
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

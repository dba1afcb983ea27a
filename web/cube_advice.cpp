#include "web/cube_advice.hpp"

#include <algorithm>

#include "chance/two_sided.hpp"
#include "judge/shipped.hpp"

namespace pointwright::web {
namespace {

/// Precondition: the table covers the board.
judge::CubeDecision by_table(const Board& board, Side on_roll,
                             const judge::CubeSituation& situation) {
  const TwoSidedTable<double>& table = small_races();
  const CubeValues values = table.values(table.family().rank(board.of(on_roll)),
                                         table.family().rank(board.of(opponent(on_roll))));
  double hold = values.hold(situation.access);
  // Equal but for rounding, as where the game is won: then doubling is as good.
  if (values.should_offer(situation.access)) hold = std::min(hold, values.offered());
  return judge::decide_between(hold, values.offered_and_taken(), situation);
}

}  // namespace

std::optional<CubeAdvice> advise_cube(const Position& position) {
  const Side side = *position.turn;
  const auto situation = judge::cube_situation(position, side);
  if (!situation) return std::nullopt;
  CubeAdvice advice;
  advice.evaluation = judge::shipped_evaluator().evaluate(position.board, side);
  advice.exact =
      advice.evaluation.origin == judge::Origin::exact_table && !situation->match.has_value();
  advice.decision = advice.exact ? by_table(position.board, side, *situation)
                                 : judge::decide(advice.evaluation.chances, *situation);
  return advice;
}

}  // namespace pointwright::web

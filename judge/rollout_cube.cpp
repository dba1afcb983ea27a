#include <optional>

#include "chance/two_sided.hpp"
#include "judge/rollout.hpp"

namespace pointwright::judge {
namespace {

/// What the exact tables say of a race with the cube, for points. Precondition: the evaluation came
/// from a table of both sides.
double exact_equity(const Board& board, Side on_roll, CubeAccess access, bool may_offer) {
  const TwoSidedTable<double>& table = small_races();
  const CubeValues values = table.values(table.family().rank(board.of(on_roll)),
                                         table.family().rank(board.of(opponent(on_roll))));
  return may_offer ? values.equity(access) : values.hold(access);
}

/// Whether what is left of the game needs no more playing.
bool is_known(const Evaluation& end, const CubeSituation& cube) {
  if (cube.match) return is_final(end.origin);
  return end.origin == Origin::game_over || end.origin == Origin::exact_table;
}

/// The cube after the side on roll has offered it and the other side has not dropped.
void turn(CubeSituation& cube, CubeReply reply) {
  cube.cube *= reply == CubeReply::beaver ? 4 : 2;
  cube.access = CubeAccess::theirs;
}

/// What each roll was worth to the side that rolled, with the cube, less what the 36 throws are
/// worth on average. `next` is the cube as the other side sees it on its turn.
double luck_of(const Search::Look& look, std::size_t rolled, const CubeSituation& next) {
  double got = 0;
  double mean = 0;
  for (std::size_t i = 0; i < look.chances.size(); ++i) {
    const double worth = -cubeful_equity(look.chances[i].reversed(), next, true);
    mean += all_rolls()[i].ways() * worth / 36;
    if (i == rolled) got = worth;
  }
  return got - mean;
}

}  // namespace

double cube_equity_in(double equity, const CubeSituation& situation, std::uint64_t unit) {
  if (!situation.match)
    return equity * static_cast<double>(situation.cube) / static_cast<double>(unit);
  const chance::MatchTable& table =
      situation.table != nullptr ? *situation.table : chance::standard_match_table();
  const chance::GameEnds at = chance::game_ends(table, *situation.match, situation.cube);
  const chance::GameEnds in = chance::game_ends(table, *situation.match, unit);
  const double match_chance = at.lose + (equity + 1) / 2 * (at.win - at.lose);
  return 2 * (match_chance - in.lose) / (in.win - in.lose) - 1;
}

Tally::Outcome Rollout::play_with_cube(const RolloutStart& start, std::uint64_t trial) {
  Board board = start.board;
  Side side = start.on_roll;
  CubeSituation cube = start.cube->situation;  // as `side` sees it
  bool may_offer = start.cube->may_offer;
  const Search::Stakes stakes(settings_.valuation);
  double luck = 0;  // seen by the viewer
  const auto counted = [&](double equity) {
    const double here = cube_equity_in(equity, cube, start.cube->unit);
    return side == viewer_ ? here : -here;
  };
  const auto outcome = [&](double equity, const Chances& chances) {
    Tally::Outcome result;
    result.equity = equity - luck;
    result.chances = in_doubles(side == viewer_ ? chances : chances.reversed());
    return result;
  };

  Evaluation end = search_.evaluator().evaluate(board, side);
  for (int ply = 0; ply < last_ply() && !is_known(end, cube); ++ply) {
    const Valuation& valuation = stakes.of(side == viewer_);
    search_.look(board, side, valuation, look_);
    if (may_offer) {
      const CubeDecision decision = decide(look_.mean, cube);
      if (decision.action == CubeAction::offer) {
        if (decision.reply == CubeReply::drop) return outcome(counted(decision.drop), look_.mean);
        turn(cube, decision.reply);
      }
    }
    const std::size_t rolled = roll_index(trial, ply);
    const CubeSituation next = passed_on(cube);
    if (settings_.adjust_luck) {
      // The same scale before and after: the cube does not change with the roll.
      const double zero = counted(0);
      luck += counted(luck_of(look_, rolled, next)) - zero;
    }
    board = settings_.play_depth > 0 ? search_.best_after(board, side, all_rolls()[rolled],
                                                          settings_.play_depth, valuation)
                                     : look_.after[rolled];
    side = opponent(side);
    cube = next;
    cube.life = cube_life(board);
    may_offer = true;
    end = search_.evaluator().evaluate(board, side);
  }
  const Chances last = reached(board, side, end);
  if (end.origin == Origin::game_over)
    return outcome(counted(cubeful_equity(last, cube, false)), last);
  if (end.origin == Origin::exact_table && !cube.match)
    return outcome(counted(exact_equity(board, side, cube.access, may_offer)), last);
  return outcome(counted(cubeful_equity(last, cube, may_offer)), last);
}

}  // namespace pointwright::judge

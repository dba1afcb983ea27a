#include "app/cube_modelled.hpp"

#include <fmt/format.h>

#include "app/numbers.hpp"
#include "judge/position_valuation.hpp"
#include "rules/score.hpp"

namespace pointwright::app {

std::optional<ModelledCube> modelled_cube(const Position& position, const Lookahead& ahead) {
  const Side side = *position.turn;
  const auto situation = judge::cube_situation(position, side);
  const auto valuation = judge::valuation_of(position, side);
  if (!situation || !valuation || winner_of(position.board)) return std::nullopt;
  const judge::SearchedValue value =
      ahead.search.worth(position.board, side, ahead.depth, *valuation);
  return ModelledCube{*situation, value, judge::decide(value.chances, *situation)};
}

Json modelled_object(const ModelledCube& cube) {
  const judge::CubeDecision& decision = cube.decision;
  const auto chance = [](float value) { return rounded(static_cast<double>(value), 4); };
  return {{"action", name(decision.action)},
          {"answer", name(decision.reply)},
          {"hold", rounded(decision.hold, 4)},
          {"double_take", rounded(decision.take, 4)},
          {"double_drop", rounded(decision.drop, 4)},
          {"margin", rounded(decision.action_margin, 4)},
          {"answer_margin", rounded(decision.reply_margin, 4)},
          {"win", chance(cube.value.chances.win)},
          {"win_gammon", chance(cube.value.chances.win_gammon)},
          {"lose_gammon", chance(cube.value.chances.lose_gammon)},
          {"cube_life", cube.situation.life},
          {"depth", cube.value.depth},
          {"known", known_modelled}};
}

std::string_view equity_unit(const Position& position) {
  return position.match ? "in chances of the match, scaled so that a single win is +1 and a single "
                          "loss -1"
                        : "in units of the cube as it stands";
}

std::string verdict(const Position& position, const judge::CubeDecision& decision) {
  const std::string_view who = name(*position.turn);
  const std::string_view other = name(opponent(*position.turn));
  const std::string_view answer = name(decision.reply);
  switch (decision.action) {
    case judge::CubeAction::none:
      return fmt::format("{} may not double, or can gain nothing by it.", who);
    case judge::CubeAction::hold:
      return fmt::format("{} holds the cube; {} would {}.", who, other, answer);
    case judge::CubeAction::offer:
      return fmt::format("{} doubles; {} {}s.", who, other, answer);
    case judge::CubeAction::too_good:
      break;
  }
  return fmt::format("{} is too good to double and plays on; {} would drop.", who, other);
}

void print_modelled(const Position& position, const ModelledCube& cube, Io& io) {
  const judge::CubeDecision& decision = cube.decision;
  const std::string who{name(*position.turn)};
  io.out << painted(Ink::strong, verdict(position, decision), io.colour_out) << '\n'
         << fmt::format("  hold         {}\n", equity(decision.hold));
  if (decision.action != judge::CubeAction::none) {
    io.out << fmt::format("  double, {:<5}{}\n  double, drop {}\n",
                          decision.reply == judge::CubeReply::beaver ? "bvr" : "take",
                          equity(decision.take), equity(decision.drop));
    io.out << wrapped(fmt::format("Between doubling and holding lie {:.3f}, between taking and "
                                  "dropping {:.3f}.",
                                  decision.action_margin, decision.reply_margin),
                      io.width, 2);
  }
  const judge::Chances& chances = cube.value.chances;
  io.out << fmt::format("\n  {:<6}wins {:>6}, a gammon {:>6}; loses a gammon {:>6}\n", who,
                        percent(static_cast<double>(chances.win), 1),
                        percent(static_cast<double>(chances.win_gammon), 1),
                        percent(static_cast<double>(chances.lose_gammon), 1));
  io.out << wrapped(
      fmt::format("Modelled: these chances {}, and a cube that gets {:.0f}% of its full use. "
                  "Equities of {} {}.",
                  cube.value.depth == 0
                      ? std::string("as valued at once")
                      : fmt::format("as estimated by the nets {} {} ahead", cube.value.depth,
                                    cube.value.depth == 1 ? "roll" : "rolls"),
                  100 * cube.situation.life, who, equity_unit(position)),
      io.width);
}

}  // namespace pointwright::app

#include "app/score_meaning.hpp"

#include <fmt/format.h>

#include <array>
#include <vector>

#include "app/numbers.hpp"
#include "chance/match_cube.hpp"
#include "rules/cube.hpp"

namespace pointwright::app {
namespace {

using chance::Needs;
using chance::ScoreDecision;

constexpr std::array<Side, 2> sides{Side::light, Side::dark};

/// Where the Crawford game stands.
enum class Stage { before_crawford, crawford, after_crawford, last };

Stage stage(const MatchScore& score) {
  const Needs light = chance::needs(score, Side::light);
  if (light.mine == 1 && light.theirs == 1) return Stage::last;
  if (score.crawford) return Stage::crawford;
  return light.after_crawford ? Stage::after_crawford : Stage::before_crawford;
}

std::string_view name(Stage stage) {
  switch (stage) {
    case Stage::before_crawford:
      return "before-crawford";
    case Stage::crawford:
      return "crawford";
    case Stage::after_crawford:
      return "after-crawford";
    case Stage::last:
      break;
  }
  return "last";
}

std::string_view meaning(Stage stage) {
  switch (stage) {
    case Stage::before_crawford:
      return "The Crawford game is still to come.";
    case Stage::crawford:
      return "This is the Crawford game: the cube is not used.";
    case Stage::after_crawford:
      return "The Crawford game is over: the cube is in use again, and the side behind, which "
             "loses the match with this game anyway, risks nothing by doubling at once.";
    case Stage::last:
      break;
  }
  return "Both sides need one point: this game decides the match, and neither the cube nor a "
         "gammon can change anything.";
}

/// The chance of a side to win the match as this game begins.
double match_chance(const chance::MatchTable& table, const Needs& needs) {
  if (!needs.after_crawford || (needs.mine == 1 && needs.theirs == 1)) {
    return table.chance(needs.mine, needs.theirs);
  }
  if (needs.theirs == 1) return table.after_crawford(needs.mine);
  return 1 - table.after_crawford(needs.theirs);
}

/// What a gammon adds to a single win, as a part of the swing between a single win and a single
/// loss at this cube.
double gammon_value(const chance::MatchTable& table, const Needs& needs, std::uint64_t cube) {
  const chance::GameEnds ends = chance::game_ends(table, needs, cube);
  return ends.win > ends.lose ? (ends.win_gammon - ends.win) / (ends.win - ends.lose) : 0;
}

/// Whether the rules let the side double at all, and a higher cube can gain it something.
bool may_turn(const Position& position, Side side) {
  if (!position.house.cube || stage(*position.match) == Stage::crawford) return false;
  return !position.cube.holder || position.cube.holder == side;
}

bool gains_by_turning(const Position& position, Side side) {
  return may_turn(position, side) && !cube_is_dead_for(position, side);
}

ScoreDecision decision(const Position& position, const GivenTable& given, Side taker) {
  return chance::decide_at_score(given.table, chance::needs(*position.match, taker),
                                 position.cube.value);
}

/// What the ends of the game are worth to a side at so many times the present cube.
chance::GameEnds ends_for(const Position& position, const GivenTable& given, Side side,
                          std::uint64_t times) {
  return chance::game_ends(given.table, chance::needs(*position.match, side),
                           times * position.cube.value);
}

std::string cube_sentence(const Position& position) {
  const Cube& cube = position.cube;
  const std::string where =
      cube.holder ? fmt::format("with {}, which alone may turn it", pointwright::name(*cube.holder))
                  : "in the middle: either side may double";
  return fmt::format("The cube is at {} {}.", cube.value, where);
}

std::string offer_text(const Position& position, const GivenTable& given, Side side, const Io& io) {
  const Side taker = opponent(side);
  const std::string who{pointwright::name(side)};
  const std::string other{pointwright::name(taker)};
  const ScoreDecision sum = decision(position, given, taker);
  std::string result =
      painted(Ink::strong, fmt::format("If {} doubles to {}", who, 2 * sum.cube), io.colour_out) +
      "\n";
  if (sum.take_and_win <= sum.drop) {
    // Nothing can be gained by taking: a side that needs one point and would have it anyway.
    return result + wrapped(fmt::format("{} loses nothing by dropping.", other), io.width, 2);
  }
  result += fmt::format("  {} takes from  {:>6}  with a dead cube (money, no gammons: 25.0%)\n",
                        other, percent(sum.dead_take_point, 1));
  if (!sum.cube_is_dead) {
    result += fmt::format("  {} takes from  {:>6}  with a live cube (money, no gammons: 20.0%)\n",
                          other, percent(sum.live_take_point, 1));
  }
  const chance::GameEnds now = ends_for(position, given, taker, 1);
  const chance::GameEnds doubled = ends_for(position, given, taker, 2);
  if (doubled.win > now.win || now.lose > doubled.lose) {
    result += fmt::format("  {} gains from  {:>6}  by a double that nobody will turn again\n", who,
                          percent(sum.double_point, 1));
  } else {
    result += wrapped(fmt::format("At this score a single game is worth the same to {} at {} and "
                                  "at {}: the double counts only where a gammon can follow.",
                                  who, sum.cube, 2 * sum.cube),
                      io.width, 2);
  }
  return result +
         wrapped(chance::take_point_sum(sum, chance::needs(*position.match, taker), {}, taker),
                 io.width, 2);
}

Json offer_object(const Position& position, const GivenTable& given, Side side) {
  const Side taker = opponent(side);
  const ScoreDecision sum = decision(position, given, taker);
  return {{"by", pointwright::name(side)},
          {"cube", 2 * sum.cube},
          {"taker", pointwright::name(taker)},
          {"drop", rounded(sum.drop, 4)},
          {"take_and_win", rounded(sum.take_and_win, 4)},
          {"take_and_lose", rounded(sum.take_and_lose, 4)},
          {"take_point",
           {{"dead", rounded(sum.dead_take_point, 4)}, {"live", rounded(sum.live_take_point, 4)}}},
          {"cube_dead_for_taker", sum.cube_is_dead},
          {"double_point", rounded(sum.double_point, 4)},
          {"gammon_value", rounded(sum.gammon_value, 4)},
          {"sum", chance::take_point_sum(sum, chance::needs(*position.match, taker), {}, taker)}};
}

std::string source_sentence(const GivenTable& given) {
  if (!given.file.empty()) {
    return fmt::format("Chances are from the table {}.", harmless(given.file));
  }
  const chance::MatchModel model;
  return fmt::format(
      "Chances are modelled: {} of won games are gammons and {} backgammons, level games, cube "
      "life "
      "{:.2f}; see docs/match-table.md.",
      percent(model.gammons, 0), percent(model.backgammons, 0), model.cube_life);
}

}  // namespace

std::string score_text(const Position& position, const GivenTable& given, const Io& io) {
  const MatchScore& score = *position.match;
  const Stage now = stage(score);
  std::string result =
      painted(
          Ink::strong,
          fmt::format("Match to {}, light {}, dark {}: light needs {}, dark needs {}", score.length,
                      score.points[0], score.points[1], chance::needs(score, Side::light).mine,
                      chance::needs(score, Side::dark).mine),
          io.colour_out) +
      "\n";
  result += wrapped(meaning(now), io.width);
  const bool cube_counts = now == Stage::before_crawford || now == Stage::after_crawford;
  if (cube_counts && position.house.cube) result += wrapped(cube_sentence(position), io.width);
  result += "\n        wins the match   a gammon is worth (money: 0.50)\n";
  for (const Side side : sides) {
    const Needs needs = chance::needs(score, side);
    result += fmt::format("  {:<5}  {:>13}   {:>17.2f}\n", pointwright::name(side),
                          percent(match_chance(given.table, needs), 1),
                          gammon_value(given.table, needs, position.cube.value));
  }
  for (const Side side : sides) {
    if (!cube_counts || !may_turn(position, side)) continue;
    result += "\n";
    if (gains_by_turning(position, side)) {
      result += offer_text(position, given, side, io);
    } else {
      result += wrapped(fmt::format("{} gains nothing by doubling: a single game at {} already "
                                    "wins it the match.",
                                    pointwright::name(side), position.cube.value),
                        io.width);
    }
  }
  return result + "\n" + wrapped(source_sentence(given), io.width);
}

Json score_object(const Position& position, const GivenTable& given) {
  const MatchScore& score = *position.match;
  Json cube{{"value", position.cube.value}, {"holder", nullptr}};
  if (position.cube.holder) cube["holder"] = pointwright::name(*position.cube.holder);
  Json needs = Json::object();
  Json chances = Json::object();
  Json gammons = Json::object();
  Json offers = Json::array();
  for (const Side side : sides) {
    const std::string who{pointwright::name(side)};
    const Needs needed = chance::needs(score, side);
    needs[who] = needed.mine;
    chances[who] = rounded(match_chance(given.table, needed), 4);
    gammons[who] = rounded(gammon_value(given.table, needed, position.cube.value), 4);
    if (stage(score) != Stage::last && gains_by_turning(position, side)) {
      offers.push_back(offer_object(position, given, side));
    }
  }
  Json table{{"source", given.file.empty() ? "computed" : given.file}};
  if (given.file.empty()) {
    const chance::MatchModel model;
    table["gammons"] = model.gammons;
    table["backgammons"] = model.backgammons;
    table["cube_life"] = model.cube_life;
  }
  return {{"match",
           {{"length", score.length},
            {"light", score.points[0]},
            {"dark", score.points[1]},
            {"crawford", score.crawford}}},
          {"cube", std::move(cube)},
          {"needs", std::move(needs)},
          {"game", name(stage(score))},
          {"chances", std::move(chances)},
          {"gammon_values", std::move(gammons)},
          {"offers", std::move(offers)},
          {"known", given.file.empty() ? known_modelled : known_given},
          {"table", std::move(table)}};
}

}  // namespace pointwright::app

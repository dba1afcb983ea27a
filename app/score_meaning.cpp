#include "app/score_meaning.hpp"

#include <fmt/format.h>

#include <array>
#include <vector>

#include "app/numbers.hpp"
#include "app/offer_meaning.hpp"
#include "chance/cube_sums.hpp"
#include "chance/match_cube.hpp"
#include "rules/cube.hpp"

namespace pointwright::app {
namespace {

using chance::Needs;

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

/// What the ends of the game are worth to a side with the cube as it stands.
chance::GameEnds ends_for(const Position& position, const GivenTable& given, Side side) {
  return chance::game_ends(given.table, chance::needs(*position.match, side), position.cube.value);
}

/// Whether the rules let the side double at all, and a higher cube can gain it something.
bool may_turn(const Position& position, Side side) {
  if (!position.house.cube || stage(*position.match) == Stage::crawford) return false;
  return !position.cube.holder || position.cube.holder == side;
}

bool gains_by_turning(const Position& position, Side side) {
  return may_turn(position, side) && !cube_is_dead_for(position, side);
}

std::string cube_sentence(const Position& position) {
  const Cube& cube = position.cube;
  const std::string where =
      cube.holder ? fmt::format("with {}, which alone may turn it", pointwright::name(*cube.holder))
                  : "in the middle: either side may double";
  return fmt::format("The cube is at {} {}.", cube.value, where);
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

std::string score_text(const Position& position, const GivenTable& given, const Rates& rates,
                       const Io& io) {
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
                          chance::gammon_value(ends_for(position, given, side)));
  }
  for (const Side side : sides) {
    result += wrapped(
        chance::gammon_value_sum(ends_for(position, given, side), position.cube.value, {}, side),
        io.width, 2);
  }
  for (const Side side : sides) {
    if (!cube_counts || !may_turn(position, side)) continue;
    result += "\n";
    if (gains_by_turning(position, side)) {
      result += offer_text(position, given.table, rates, side, io);
    } else {
      result += wrapped(fmt::format("{} gains nothing by doubling: a single game at {} already "
                                    "wins it the match.",
                                    pointwright::name(side), position.cube.value),
                        io.width);
    }
  }
  return result + "\n" + wrapped(rates_sentence(rates) + " " + source_sentence(given), io.width);
}

Json score_object(const Position& position, const GivenTable& given, const Rates& rates) {
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
    gammons[who] = rounded(chance::gammon_value(ends_for(position, given, side)), 4);
    if (stage(score) != Stage::last && gains_by_turning(position, side)) {
      offers.push_back(offer_object(position, given.table, rates, side));
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
          {"gammons_counted", rates_object(rates)},
          {"known", given.file.empty() ? known_modelled : known_given},
          {"table", std::move(table)}};
}

}  // namespace pointwright::app

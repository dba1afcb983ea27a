#include "rules/house.hpp"

#include <array>

namespace pointwright {
namespace {

constexpr std::array<HouseRule, 6> all{{
    {"cube", &HouseRules::cube, true, "The doubling cube is in use.",
     "A side that is about to roll may offer to double the value of the game; the other side takes "
     "and holds the cube, or drops and loses the value as it stood. Without this rule a game is "
     "worth one point before gammons are counted, and the Jacoby rule, automatic doubles and "
     "beavers have nothing to work on.",
     "common practice"},
    {"gammons", &HouseRules::gammons, true, "A gammon counts double and a backgammon three times.",
     "The winner of a game that is played to the end scores the value of the cube: once if the "
     "loser has borne off a checker, twice (a gammon) if the loser has borne off none, three times "
     "(a backgammon) if besides a checker of the loser stands on the bar or in the winner's home "
     "board. Without this rule every win counts once, however far it goes.",
     "common practice, every rule book"},
    {"jacoby", &HouseRules::jacoby, false,
     "Gammons and backgammons count only in a game in which the cube has been turned.",
     "A side that plays on for a gammon without having doubled scores a single game, so a strong "
     "position is doubled rather than played out. An offer that was taken turns the cube; an "
     "automatic double does not. The rule belongs to games played for points: in a match, and "
     "where "
     "no cube is used, it is not in force.",
     "common practice; named after Oswald Jacoby"},
    {"automatic-doubles", &HouseRules::automatic_doubles, false,
     "Each tie on the opening roll doubles the cube, which stays in the middle.",
     "Both sides throw one die to decide who begins. When the dice tie, the cube is turned to the "
     "next value before they throw again, and either side may still make the first offer. Some "
     "houses allow one automatic double a game; here every tie counts. The rule belongs to games "
     "played for points: in a match, and where no cube is used, it is not in force.",
     "common practice"},
    {"beavers", &HouseRules::beavers, false,
     "A side that is offered the cube may take it and at once double again, keeping the cube.",
     "The answer to an offer may be a beaver: the cube goes one value higher than was offered and "
     "stays with the side that took. The side that made the first offer now accepts, or drops and "
     "loses the value that it had offered itself. The rule belongs to games played for points: in "
     "a match, and where no cube is used, it is not in force.",
     "common practice"},
    {"premature-roll-stands", &HouseRules::premature_roll_stands, false,
     "A valid roll thrown before the other side has lifted its dice stands.",
     "A turn ends when its dice are lifted. At home a side that throws too early throws again. "
     "Tournaments let a roll stand that is valid but for its haste: the other side finishes its "
     "play and may choose it knowing the roll, and the hasty side has lost the chance to offer the "
     "cube in that turn.",
     "U.S. Backgammon Tournament Rules and Procedures, 2008, sections 4.1 to 4.6; the home form is "
     "common practice"},
}};

constexpr HouseRules with(bool HouseRules::* member, bool value, HouseRules rules = {}) {
  rules.*member = value;
  return rules;
}

constexpr HouseRules for_points() {
  HouseRules rules;
  rules.jacoby = true;
  rules.automatic_doubles = true;
  rules.beavers = true;
  return rules;
}

constexpr std::array<HousePreset, 4> presets{{
    {"home", "A friendly game: the cube and gammons, and nothing else.", HouseRules{}},
    {"first-evening", "For newcomers: no cube, and every win counts once.",
     with(&HouseRules::cube, false, with(&HouseRules::gammons, false))},
    {"points", "Game by game for points: Jacoby rule, automatic doubles and beavers.",
     for_points()},
    {"tournament", "A match at a club: a premature roll stands if it is otherwise valid.",
     with(&HouseRules::premature_roll_stands, true)},
}};

}  // namespace

std::span<const HouseRule> house_rules() {
  return all;
}

const HouseRule* find_house_rule(std::string_view name) {
  for (const HouseRule& rule : all)
    if (rule.name == name) return &rule;
  return nullptr;
}

std::span<const HousePreset> house_presets() {
  return presets;
}

const HousePreset* find_house_preset(std::string_view name) {
  for (const HousePreset& preset : presets)
    if (preset.name == name) return &preset;
  return nullptr;
}

HouseRules in_force(HouseRules house, bool in_match) {
  const bool for_points = house.cube && !in_match;
  house.jacoby = house.jacoby && for_points;
  house.automatic_doubles = house.automatic_doubles && for_points;
  house.beavers = house.beavers && for_points;
  return house;
}

}  // namespace pointwright

#include "rules/house.hpp"

#include <algorithm>
#include <array>

namespace pointwright {
namespace {

constexpr std::array<HouseRule, 6> all{{
    {"cube", &HouseRules::cube, true, "The doubling cube is in use.", "", ""},
    {"gammons", &HouseRules::gammons, true, "Gammons and backgammons count double and triple.", "",
     ""},
    {"jacoby", &HouseRules::jacoby, false, "", "", ""},
    {"automatic-doubles", &HouseRules::automatic_doubles, false, "", "", ""},
    {"beavers", &HouseRules::beavers, false, "", "", ""},
    {"premature-roll-stands", &HouseRules::premature_roll_stands, false, "", "", ""},
}};

}  // namespace

std::span<const HouseRule> house_rules() {
  return all;
}

const HouseRule* find_house_rule(std::string_view name) {
  const auto* found = std::find_if(all.begin(), all.end(),
                                   [&](const HouseRule& rule) { return rule.name == name; });
  return found == all.end() ? nullptr : found;
}

std::span<const HousePreset> house_presets() {
  return {};
}

}  // namespace pointwright

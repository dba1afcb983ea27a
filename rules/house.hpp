#pragma once

#include <optional>
#include <span>
#include <string_view>

namespace pointwright {

/// The house rules in force. Each has a name, a default and an explanation in `house_rules()`.
struct HouseRules {
  bool cube = true;
  bool gammons = true;
  bool jacoby = false;
  bool automatic_doubles = false;
  bool beavers = false;
  bool premature_roll_stands = false;
  friend bool operator==(const HouseRules&, const HouseRules&) = default;
};

/// What is written about one house rule.
struct HouseRule {
  std::string_view name;  ///< as in a position line: "jacoby"; "no-jacoby" turns it off
  bool HouseRules::* member;
  bool by_default;
  std::string_view statement;    ///< one line
  std::string_view explanation;  ///< a paragraph
  std::string_view source;
};

/// Every house rule, in the order in which they are printed.
std::span<const HouseRule> house_rules();

/// The rule of that name, if there is one.
const HouseRule* find_house_rule(std::string_view name);

/// A named choice of house rules.
struct HousePreset {
  std::string_view name;
  std::string_view statement;
  HouseRules rules;
};

std::span<const HousePreset> house_presets();

/// The choice of that name, or nullptr.
const HousePreset* find_house_preset(std::string_view name);

/// The house rules that can take effect. The Jacoby rule, automatic doubles and beavers are for
/// games played for points with a cube (common practice): in a match, or without the cube, they are
/// off even if they were chosen.
HouseRules in_force(HouseRules house, bool in_match);

}  // namespace pointwright

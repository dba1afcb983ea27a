// The table of house rules is whole, and each rule can be turned on and off by name.

#include <gtest/gtest.h>

#include <set>
#include <string>

#include "rules/house.hpp"

namespace pointwright {
namespace {

constexpr int rule_count = 6;

/// One of the 64 choices of house rules.
HouseRules choice(unsigned bits) {
  HouseRules rules;
  unsigned bit = 1;
  for (const HouseRule& rule : house_rules()) {
    rules.*rule.member = (bits & bit) != 0;
    bit <<= 1;
  }
  return rules;
}

TEST(HouseRules, EveryRuleIsWhollyWritten) {
  ASSERT_EQ(house_rules().size(), static_cast<std::size_t>(rule_count));
  std::set<std::string_view> names;
  for (const HouseRule& rule : house_rules()) {
    SCOPED_TRACE(std::string(rule.name));
    EXPECT_TRUE(names.insert(rule.name).second);
    EXPECT_FALSE(rule.name.starts_with("no-")) << "no- turns a rule off";
    EXPECT_EQ(rule.name.find_first_not_of("abcdefghijklmnopqrstuvwxyz-"), std::string_view::npos);
    EXPECT_GE(rule.statement.size(), 20U);
    EXPECT_LE(rule.statement.size(), 110U) << "a statement is one line";
    EXPECT_EQ(rule.statement.back(), '.');
    EXPECT_GE(rule.explanation.size(), 80U);
    EXPECT_EQ(rule.explanation.back(), '.');
    EXPECT_FALSE(rule.source.empty());
    EXPECT_EQ(HouseRules{}.*rule.member, rule.by_default);
    EXPECT_EQ(find_house_rule(rule.name), &rule);
  }
  EXPECT_EQ(find_house_rule("no-such-rule"), nullptr);
  EXPECT_EQ(find_house_rule(""), nullptr);
}

TEST(HouseRules, EveryMemberHasARuleOfItsOwn) {
  std::set<std::string> seen;
  for (unsigned bits = 0; bits < 1U << rule_count; ++bits) {
    const HouseRules rules = choice(bits);
    std::string members;
    for (const bool on : {rules.cube, rules.gammons, rules.jacoby, rules.automatic_doubles,
                          rules.beavers, rules.premature_roll_stands})
      members += on ? '1' : '0';
    seen.insert(members);
  }
  EXPECT_EQ(seen.size(), 64U);
}

TEST(HouseRules, PresetsAreNamedAndDistinct) {
  ASSERT_FALSE(house_presets().empty());
  std::set<std::string_view> names;
  for (const HousePreset& preset : house_presets()) {
    EXPECT_TRUE(names.insert(preset.name).second);
    EXPECT_EQ(preset.statement.back(), '.');
    EXPECT_EQ(find_house_preset(preset.name), &preset);
    for (const HousePreset& other : house_presets())
      EXPECT_EQ(preset.name == other.name, preset.rules == other.rules);
  }
  EXPECT_EQ(find_house_preset("no-such-preset"), nullptr);
  EXPECT_EQ(find_house_preset("home")->rules, HouseRules{});
  EXPECT_FALSE(find_house_preset("first-evening")->rules.cube);
  EXPECT_FALSE(find_house_preset("first-evening")->rules.gammons);
  EXPECT_TRUE(find_house_preset("points")->rules.jacoby);
  EXPECT_TRUE(find_house_preset("tournament")->rules.premature_roll_stands);
}

// Jacoby rule, automatic doubles and beavers are not used in match play, and need a cube
// (common practice). The other rules are in force whenever they are on.
TEST(HouseRules, InForceInMatchesAndWithoutACube) {
  for (unsigned bits = 0; bits < 1U << rule_count; ++bits) {
    const HouseRules chosen = choice(bits);
    for (const bool in_match : {false, true}) {
      const HouseRules rules = in_force(chosen, in_match);
      const bool for_points = !in_match && chosen.cube;
      EXPECT_EQ(rules.cube, chosen.cube);
      EXPECT_EQ(rules.gammons, chosen.gammons);
      EXPECT_EQ(rules.premature_roll_stands, chosen.premature_roll_stands);
      EXPECT_EQ(rules.jacoby, for_points && chosen.jacoby);
      EXPECT_EQ(rules.automatic_doubles, for_points && chosen.automatic_doubles);
      EXPECT_EQ(rules.beavers, for_points && chosen.beavers);
    }
  }
}

}  // namespace
}  // namespace pointwright

// Meta-tests: the rule book itself is complete and consistent.

#include "rules/rulebook.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <string>

#include "rules/ruling.hpp"

namespace pointwright {
namespace {

TEST(Rulebook, EveryRuleIsWhollyWritten) {
  ASSERT_FALSE(rulebook().empty());
  for (const Rule* rule : rulebook()) {
    SCOPED_TRACE(std::string(rule->id));
    EXPECT_TRUE(std::regex_match(std::string(rule->id), std::regex("[a-z]+(-[a-z]+)*")));
    EXPECT_GE(rule->statement.size(), 20U);
    EXPECT_LE(rule->statement.size(), 110U) << "a statement is one line";
    EXPECT_EQ(rule->statement.back(), '.');
    EXPECT_GE(rule->explanation.size(), 80U);
    EXPECT_EQ(rule->explanation.back(), '.');
    EXPECT_NE(rule->explanation, rule->statement);
    EXPECT_FALSE(rule->source.empty());
    EXPECT_FALSE(rule->example.empty());
    EXPECT_EQ(!rule->attempt.empty(), rule->about == Rule::About::play)
        << "rules of play, and only they, have a play that they refuse";
  }
}

TEST(Rulebook, IdsAreUniqueAndFound) {
  std::set<std::string_view> ids;
  for (const Rule* rule : rulebook()) {
    EXPECT_TRUE(ids.insert(rule->id).second) << rule->id;
    EXPECT_EQ(find_rule(rule->id), rule);
  }
  EXPECT_EQ(find_rule("no-such-rule"), nullptr);
  EXPECT_EQ(find_rule(""), nullptr);
}

TEST(Rulebook, EveryRuleOfAChapterIsRegistered) {
  // A rule that is written but not named in rulebook.cpp would be invisible; read the chapters.
  const std::filesystem::path chapters =
      std::filesystem::path(POINTWRIGHT_SOURCE_DIR) / "rules" / "book";
  const std::regex id("\\.id = \"([^\"]+)\"");
  std::size_t written = 0;
  for (const auto& entry : std::filesystem::directory_iterator(chapters)) {
    std::ifstream file(entry.path());
    const std::string text((std::istreambuf_iterator<char>(file)), {});
    for (std::sregex_iterator at(text.begin(), text.end(), id), end; at != end; ++at) {
      ++written;
      EXPECT_NE(find_rule((*at)[1].str()), nullptr) << (*at)[1] << " in " << entry.path();
    }
  }
  EXPECT_EQ(written, rulebook().size());
}

TEST(Rulebook, ExamplesArePositions) {
  for (const Rule* rule : rulebook()) {
    const auto position = read_position(rule->example);
    EXPECT_TRUE(position) << rule->id << ": " << (position ? "" : position.error().front().reason);
  }
}

TEST(Rulebook, EveryRuleOfPlayRefusesItsOwnAttempt) {
  for (const Rule* rule : rulebook()) {
    if (rule->about != Rule::About::play) continue;
    SCOPED_TRACE(std::string(rule->id));
    const auto position = read_position(rule->example);
    const auto attempt = read_play(rule->attempt);
    ASSERT_TRUE(position);
    ASSERT_TRUE(attempt);
    ASSERT_TRUE(position->turn);
    ASSERT_TRUE(position->roll);
    const Ruling ruling = rule_on(*position, *attempt);
    EXPECT_FALSE(ruling.allowed);
    EXPECT_EQ(ruling.rule, rule) << (ruling.rule ? ruling.rule->id : "no rule");
    EXPECT_FALSE(ruling.alternatives.empty()) << "an example shows what to play instead";
  }
}

}  // namespace
}  // namespace pointwright

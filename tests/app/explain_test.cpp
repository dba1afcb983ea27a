#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "app/topics.hpp"
#include "rules/house.hpp"
#include "rules/rulebook.hpp"
#include "tests/app/command_line.hpp"

namespace pointwright::app {
namespace {

using testing::HasSubstr;

TEST(Explain, EveryRuleAndHouseRuleHasATopicOfItsOwn) {
  std::set<std::string_view> ids;
  for (const Topic& topic : topics()) EXPECT_TRUE(ids.insert(topic.id).second) << topic.id;
  for (const Rule* rule : rulebook()) EXPECT_TRUE(ids.contains(rule->id)) << rule->id;
  for (const HouseRule& rule : house_rules()) EXPECT_TRUE(ids.contains(rule.name)) << rule.name;
}

TEST(Explain, EveryTopicCanBeExplained) {
  for (const Topic& topic : topics()) {
    const std::string id{topic.id};
    const Outcome words = command({"explain", id});
    EXPECT_EQ(words.exit, exit_fine) << id;
    EXPECT_THAT(words.out, HasSubstr(id));
    const Json json = command({"explain", "--json", id}).json();
    EXPECT_EQ(json["id"], id);
    EXPECT_EQ(json["statement"], topic.statement);
    if (!topic.attempt.empty()) {
      EXPECT_FALSE(json["proof"].get<std::string>().empty()) << id;
    }
  }
}

TEST(Explain, ListsEverythingWithoutAName) {
  const Outcome words = command({"explain"});
  const Json list = command({"explain", "--json"}).json()["topics"];
  const auto all = topics();
  ASSERT_EQ(list.size(), all.size());
  for (std::size_t i = 0; i < all.size(); ++i) {
    EXPECT_EQ(list[i]["id"], all[i].id);
    EXPECT_THAT(words.out, HasSubstr("  " + std::string{all[i].id} + " "));
  }
}

TEST(Explain, SuggestsTheNameThatWasMeant) {
  const Outcome typo = command({"explain", "bar-frst"});
  EXPECT_EQ(typo.exit, exit_bad_input);
  EXPECT_THAT(typo.err, HasSubstr("did you mean `bar-first`?"));
}

TEST(Explain, KnowsAHouseRuleTurnedOff) {
  EXPECT_EQ(command({"explain", "no-jacoby"}).out, command({"explain", "jacoby"}).out);
}

}  // namespace
}  // namespace pointwright::app

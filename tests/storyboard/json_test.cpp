#include "storyboard/json.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

#include "tests/storyboard/schema_check.hpp"

namespace pointwright {
namespace {

/// A storyboard in which every member is set to something of its own.
Storyboard full() {
  Inline word{Inline::Kind::text, "a < b & \"c\" \u00E9 </script>", "", {}};
  Inline link{Inline::Kind::link, "", "https://example.org/?a=1&b=2", {word}};
  Prose cell{Prose::Kind::cell, 0, {word, link, {Inline::Kind::line_break, "", "", {}}}, {}};
  Prose table{Prose::Kind::table, 0, {}, {{Prose::Kind::row, 0, {}, {cell, cell}}}};
  Prose heading{Prose::Kind::heading, 2, {{Inline::Kind::strong, "", "", {word}}}, {}};
  const Source source{"one.md", 3, 5};
  ProvedClaim claim{
      "pips", "pips light 167", "Light has 167.", "Count.", {HowKnown::Kind::sampled, 2, 0.25},
      source};
  Step step{Step::Kind::attempt,
            "8/7",
            "words \\ \"x\"",
            "light 6x1; dark 6x1",
            {{Side::dark, bar_place, 22, true}},
            {{Side::light, off_place}},
            "refused",
            2.5,
            source};
  Scene scene{"here",
              "light 6x1; dark 6x1",
              "caption",
              {Side::dark, true, Side::dark},
              {{Side::light, 6, off_place, false}},
              {{Side::dark, 24}},
              {step, Step{}},
              {claim},
              source};
  Question question;
  question.id = "q";
  question.kind = Question::Kind::play;
  question.ask = {word};
  question.position = "light 6x1; dark 6x1; light to play 2-1";
  question.view = {Side::dark, false, Side::light};
  question.choices = {{{word}, true, "reply"}};
  question.plays = {{"6/3", true, true, "light 3x1; dark 6x1", "good"}};
  question.number = -1.5;
  question.tolerance = 0.125;
  question.explanation = "why";
  question.claims = {claim};
  question.source = source;
  Storyboard storyboard;
  storyboard.title = "T";
  storyboard.summary = "S";
  storyboard.author = "A";
  storyboard.language = "pt-BR";
  Chapter chapter;
  chapter.id = "one";
  chapter.file = "one.md";
  chapter.title = "One";
  chapter.summary = "sum";
  chapter.names.of = {"Ivory", "Walnut"};
  chapter.parts = {{heading, std::nullopt, std::nullopt},
                   {table, std::nullopt, std::nullopt},
                   {std::nullopt, scene, std::nullopt},
                   {std::nullopt, std::nullopt, question}};
  storyboard.chapters = {chapter, Chapter{}};
  return storyboard;
}

TEST(StoryboardJson, IsReadBackAsWritten) {
  const std::string json = to_json(full());
  const auto back = storyboard_from_json(json);
  ASSERT_TRUE(back.ok()) << back.error().where << " " << back.error().reason;
  EXPECT_EQ(to_json(*back), json);
  EXPECT_EQ(back->chapters[0].parts[0].prose->words[0].children[0].text,
            full().chapters[0].parts[0].prose->words[0].children[0].text);
  EXPECT_EQ(back->chapters[0].parts[2].scene->steps[0].seconds, 2.5);
  EXPECT_FALSE(back->chapters[0].parts[2].scene->steps[1].ruling);
  EXPECT_EQ(back->chapters[0].parts[2].scene->view.bottom, Side::dark);
}

TEST(StoryboardJson, FollowsItsSchema) {
  const auto schema = nlohmann::json::parse(storyboard_schema());
  const auto faults = [&](const nlohmann::json& json) { return schema_faults(schema, json); };
  const auto whole = nlohmann::json::parse(to_json(full()));
  EXPECT_EQ(faults(whole), std::vector<std::string>{});

  // The check itself finds what is wrong.
  auto broken = whole;
  broken["chapters"][0]["parts"][2]["scene"]["view"]["bottom"] = "left";
  EXPECT_EQ(faults(broken).size(), 1U);
  broken = whole;
  broken["chapters"][0].erase("title");
  EXPECT_EQ(faults(broken).size(), 1U);
  broken = whole;
  broken["chapters"][0]["parts"][2]["scene"]["marks"][0]["place"] = 26;
  EXPECT_EQ(faults(broken).size(), 1U);
  broken = whole;
  broken["version"] = 99;
  EXPECT_EQ(faults(broken).size(), 1U);
  broken = whole;
  broken["chapters"][0]["parts"][0] = nlohmann::json::object();
  EXPECT_EQ(faults(broken).size(), 1U);
}

TEST(StoryboardJson, HasItsSchemaInTheDocumentation) {
  std::ifstream file(POINTWRIGHT_SOURCE_DIR "/docs/storyboard.schema.json");
  EXPECT_EQ(std::string(std::istreambuf_iterator<char>(file), {}), storyboard_schema());
}

/// What the reader says about the full storyboard with one member changed.
std::string complaint(const nlohmann::json::json_pointer& where, const nlohmann::json& value) {
  auto json = nlohmann::json::parse(to_json(full()));
  json[where] = value;
  const auto result = storyboard_from_json(json.dump());
  return result.ok() ? "" : result.error().where + ": " + result.error().reason;
}

TEST(StoryboardJson, NamesWhatIsWrong) {
  using Pointer = nlohmann::json::json_pointer;
  EXPECT_EQ(complaint(Pointer("/title"), 3), "/title: expected a string, found number");
  EXPECT_EQ(complaint(Pointer("/version"), 0),
            "/version: this program reads version 1 of the storyboard; build the course again with "
            "it");
  EXPECT_EQ(complaint(Pointer("/chapters/0/parts/2/scene/view/bottom"), "up"),
            "/chapters/0/parts/2/scene/view/bottom: expected one of light, dark");
  EXPECT_EQ(complaint(Pointer("/chapters/0/parts/2/scene/marks/0/place"), 26),
            "/chapters/0/parts/2/scene/marks/0/place: expected a place from 0 to 25");
  EXPECT_EQ(complaint(Pointer("/chapters/0/parts/2/scene/source/line"), -1),
            "/chapters/0/parts/2/scene/source/line: expected a whole number from 0 to 1000000000");
  EXPECT_EQ(complaint(Pointer("/chapters/0/parts/2"), nlohmann::json::object()),
            "/chapters/0/parts/2: expected exactly one of prose, scene and question");
  EXPECT_EQ(complaint(Pointer("/chapters/0/parts/2/scene/steps"), "none"),
            "/chapters/0/parts/2/scene/steps: expected a list, found string");
  EXPECT_EQ(complaint(Pointer("/chapters/0/names"), nlohmann::json::object()),
            "/chapters/0/names: the member \"light\" is missing");
  EXPECT_EQ(storyboard_from_json("{").error().reason, "the text is not JSON");
  EXPECT_EQ(storyboard_from_json("[]").error().reason, "expected an object, found array");
  EXPECT_EQ(storyboard_from_json("{}").error().reason, "the member \"version\" is missing");
}

TEST(StoryboardJson, BoundsNesting) {
  std::string deep = R"({"kind":"quote","level":0,"words":[],"children":[]})";
  std::string before;
  std::string after;
  for (int i = 0; i < 20'000; ++i) {
    before += R"({"kind":"quote","level":0,"words":[],"children":[)";
    after += "]}";
  }
  deep = before + deep + after;
  auto text = to_json(Storyboard{});
  text.replace(text.find("\"chapters\":[]"), 13,
               R"("chapters":[{"id":"","file":"","title":"","summary":"",)"
               R"("names":{"light":"","dark":""},"parts":[{"prose":)" +
                   deep + "}]}]");
  const auto result = storyboard_from_json(text);
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.error().reason, "lists are nested too deeply");
}

}  // namespace
}  // namespace pointwright

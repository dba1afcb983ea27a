#include "studio/diagram.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <libxml/parser.h>

#include <memory>
#include <regex>
#include <set>

#include "tests/studio/sample.hpp"

namespace pointwright {
namespace {

using testing::HasSubstr;
using testing::Not;

bool well_formed(const std::string& xml) {
  const std::unique_ptr<xmlDoc, decltype(&xmlFreeDoc)> document(
      xmlReadMemory(xml.data(), static_cast<int>(xml.size()), "diagram.svg", "UTF-8",
                    XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING),
      &xmlFreeDoc);
  return document != nullptr;
}

std::vector<std::smatch> matches(const std::string& text, const std::regex& pattern) {
  return {std::sregex_iterator(text.begin(), text.end(), pattern), std::sregex_iterator()};
}

DiagramOptions busy_options() {
  DiagramOptions options;
  options.arrows = {{Side::light, 24, 18}, {Side::dark, 13, 8, true}};
  options.marks = {{Side::light, 5}, {Side::dark, bar_place}, {Side::dark, off_place}};
  return options;
}

TEST(Diagram, IsWellFormedInEveryThemeAndView) {
  for (const Theme theme : {Theme::light, Theme::dark, Theme::print}) {
    for (const Side bottom : {Side::light, Side::dark}) {
      DiagramOptions options = busy_options();
      options.theme = theme;
      options.view = {bottom, bottom == Side::dark, opponent(bottom)};
      EXPECT_TRUE(well_formed(diagram_svg(sample_start(), options)));
    }
  }
}

TEST(Diagram, EscapesWhateverNamesAndCaptionsSay) {
  DiagramOptions options;
  options.names.of = {"<script>&\"'", "a\x01z"};
  options.caption = "]]></title><script>";
  options.id = "\"><x";
  const std::string svg = diagram_svg(sample_start(), options);
  EXPECT_TRUE(well_formed(svg));
  EXPECT_THAT(svg, Not(HasSubstr("<script>")));
  EXPECT_THAT(svg, Not(HasSubstr("\x01")));
}

TEST(Diagram, HasATitleADescriptionAndRealText) {
  Position position = sample_start();
  position.turn = Side::dark;
  const std::string svg = diagram_svg(position, busy_options());
  EXPECT_THAT(svg, HasSubstr("role=\"img\" aria-labelledby=\"board-title board-text\""));
  EXPECT_THAT(svg, HasSubstr("<title id=\"board-title\">dark to roll</title>"));
  EXPECT_THAT(svg, HasSubstr("5 checkers on the 13-point"));
  EXPECT_THAT(svg, HasSubstr(">24</text>"));
}

TEST(Diagram, StandsUnderAStrictContentSecurityPolicy) {
  const std::string svg = diagram_svg(sample_start(), busy_options());
  EXPECT_THAT(svg, Not(HasSubstr("style=")));
  EXPECT_THAT(svg, Not(HasSubstr("<style")));
  EXPECT_THAT(svg, Not(HasSubstr("<script")));
  for (const std::smatch& address : matches(svg, std::regex("https?://[^\"]*"))) {
    EXPECT_EQ(address.str(), "http://www.w3.org/2000/svg");
  }
}

TEST(Diagram, EveryReferenceHasItsTargetOnce) {
  const std::string svg = diagram_svg(sample({{6, 1}}, {{6, 1}}), busy_options());
  std::multiset<std::string> ids;
  for (const std::smatch& id : matches(svg, std::regex(" id=\"([^\"]*)\""))) {
    ids.insert(id[1]);
  }
  const auto uses = matches(svg, std::regex("href=\"#([^\"]*)\""));
  for (const std::smatch& use : uses) {
    EXPECT_EQ(ids.count(use[1]), 1U);
  }
  EXPECT_EQ(uses.size(), 30U);  // 2 checkers on the board, 28 borne off
}

TEST(Diagram, LeavesOutPipCountsAndTheTrayWhenBare) {
  const Position position =
      *read_position("light 13x2; dark 5x1; light to play 5-2; match to 7 score 3-2");
  DiagramOptions options;
  const std::string full = diagram_svg(position, options);
  options.view.bare = true;
  const std::string bare = diagram_svg(position, options);
  EXPECT_THAT(full, HasSubstr(">26 pips, 3 of 7<"));
  EXPECT_THAT(full, HasSubstr(">13</text>"));
  EXPECT_THAT(bare, HasSubstr(">3 of 7<"));
  EXPECT_THAT(bare, Not(HasSubstr("href=\"#board-light-slab")));
  EXPECT_THAT(full, HasSubstr("href=\"#board-light-slab"));
}

TEST(Diagram, PrintsInGreyOnly) {
  DiagramOptions options = busy_options();
  options.theme = Theme::print;
  const std::string svg = diagram_svg(sample_start(), options);
  const auto colours = matches(svg, std::regex("\"#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})\""));
  for (const std::smatch& colour : colours) {
    EXPECT_EQ(colour[1], colour[2]);
    EXPECT_EQ(colour[2], colour[3]);
  }
  EXPECT_GT(colours.size(), 50U);
}

TEST(Diagram, EqualInputGivesEqualBytes) {
  EXPECT_EQ(diagram_svg(sample_start(), busy_options()),
            diagram_svg(sample_start(), busy_options()));
}

TEST(Svg, NumbersAreShort) {
  EXPECT_EQ(svg_number(0), "0");
  EXPECT_EQ(svg_number(-0.04), "0");
  EXPECT_EQ(svg_number(12.25), "12.3");
  EXPECT_EQ(svg_number(-3.5), "-3.5");
  EXPECT_EQ(svg_number(580), "580");
}

TEST(Svg, EveryClassOfAPictureHasItsRuleAndEveryRuleItsColours) {
  const std::string css = drawing_css();
  const std::string svg = diagram_svg(sample({{6, 7}, {bar_place, 1}}, {{6, 7}}), busy_options());
  for (const std::smatch& name : matches(svg, std::regex("class=\"pw-([a-z-]*)\""))) {
    if (!name[1].str().starts_with("layer-")) {
      EXPECT_THAT(css, HasSubstr(".pw-" + name[1].str() + "{"));
    }
  }
  for (const Theme theme : {Theme::light, Theme::dark, Theme::print}) {
    for (const std::smatch& variable : matches(css, std::regex("var\\((--pw-[a-z-]*)\\)"))) {
      EXPECT_THAT(theme_css(theme), HasSubstr(variable[1].str() + ":#"));
    }
  }
}

}  // namespace
}  // namespace pointwright

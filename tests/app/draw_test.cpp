#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/draw_parts.hpp"
#include "studio/diagram.hpp"
#include "tests/app/command_line.hpp"

namespace pointwright::app {
namespace {

using testing::HasSubstr;

constexpr const char* position_line = "light barx1 6x2; dark 5x2 3x2; light to play 6-4";

Position position() {
  return *read_position(position_line);
}

TEST(Draw, DrawsTheDiagramOfTheStudio) {
  const Outcome answer = command({"draw", position_line});
  EXPECT_EQ(answer.exit, exit_fine);
  EXPECT_EQ(answer.out, diagram_svg(position(), {}));
}

TEST(Draw, EveryOptionReachesThePicture) {
  DiagramOptions expected;
  expected.view = {.bottom = Side::dark, .home_on_left = true, .numbering = Side::light};
  expected.marks = {{.side = Side::light, .place = 20}};
  expected.arrows = {{.side = Side::light, .from = bar_place, .to = 15}};
  expected.names.of = {"Ivory", "Walnut"};
  expected.caption = "At the door";
  expected.theme = Theme::print;
  expected.margins = false;
  const Outcome answer =
      command({"draw", "--bottom", "dark", "--home", "left", "--numbers", "light", "--mark",
               "light 20", "--arrow", "light bar/15", "--names", "Ivory,Walnut", "--caption",
               "At the door", "--theme", "print", "--board-only", position_line});
  EXPECT_EQ(answer.exit, exit_fine) << answer.err;
  EXPECT_EQ(answer.out, diagram_svg(position(), expected));
}

TEST(Draw, PointsCarryTheNumbersOfTheSideAtTheBottom) {
  DiagramOptions expected;
  expected.view = {.bottom = Side::dark, .numbering = Side::dark};
  EXPECT_EQ(command({"draw", position_line, "--bottom", "dark"}).out,
            diagram_svg(position(), expected));
}

TEST(Draw, AnswersOtherPrograms) {
  const Json single = command({"draw", "--json", position_line}).json();
  EXPECT_EQ(single["position"], to_text(position()));
  EXPECT_EQ(single["svg"], diagram_svg(position(), {}));
  const auto lines =
      command({"draw", "--batch"}, std::string(position_line) + "\nnothing\n").lines();
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_EQ(lines[0], single);
  EXPECT_EQ(lines[1]["input"], "nothing");
}

TEST(Draw, FaultsInPartsAreUnderlined) {
  struct Wrong {
    const char* option;
    const char* text;
    const char* underlined;
  };
  for (const Wrong& wrong : {Wrong{"--mark", "light 25", "  light 25\n        ^^\n"},
                             Wrong{"--mark", "grey 5", "  grey 5\n  ^^^^\n"},
                             Wrong{"--mark", "light", "  light\n  ^^^^^\n"},
                             Wrong{"--arrow", "dark 6", "  dark 6\n       ^\n"},
                             Wrong{"--arrow", "dark 6/99", "  dark 6/99\n         ^^\n"},
                             Wrong{"--arrow", "dark x/9", "  dark x/9\n       ^\n"},
                             Wrong{"--arrow", "dark 9/9", "  dark 9/9\n       ^^^\n"},
                             Wrong{"--names", "Ivory", "  Ivory\n  ^^^^^\n"}}) {
    const Outcome answer = command({"draw", position_line, wrong.option, wrong.text});
    EXPECT_EQ(answer.exit, exit_bad_input) << wrong.text;
    EXPECT_EQ(answer.out, "");
    EXPECT_THAT(answer.err, HasSubstr(wrong.underlined));
  }
}

TEST(Draw, SuggestsTheWordThatWasMeant) {
  const Outcome answer = command({"draw", position_line, "--home", "rihgt"});
  EXPECT_EQ(answer.exit, exit_bad_input);
  EXPECT_THAT(answer.err, HasSubstr("did you mean `right`?"));
}

}  // namespace
}  // namespace pointwright::app

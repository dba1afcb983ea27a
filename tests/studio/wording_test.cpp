#include "studio/wording.hpp"

#include <gtest/gtest.h>

#include "tests/studio/sample.hpp"

namespace pointwright {
namespace {

TEST(Wording, SpeaksAPositionInFull) {
  Position position = sample({{bar_place, 1}, {13, 4}}, {{24, 2}});
  position.turn = Side::light;
  position.roll = Roll(1, 3);
  position.cube = {2, Side::dark};
  position.match = MatchScore{7, {3, 5}, false};
  SideNames names;
  names.of = {"Ivory", "Walnut"};
  EXPECT_EQ(spoken_position(position, names),
            "Ivory, counting from its own home: 1 checker on the bar, 4 checkers on the 13-point "
            "and 10 checkers borne off; 77 pips, 3 of 7. "
            "Walnut, counting from its own home: 2 checkers on the 24-point and 13 checkers borne "
            "off; 48 pips, 5 of 7. "
            "The cube stands at 2 with Walnut. Match to 7. Ivory to play 3-1.");
}

TEST(Wording, OnePipIsNotPips) {
  EXPECT_EQ(tally_words(sample({{1, 1}}, {}), Side::light), "1 pip");
}

TEST(Wording, NoTurnNoWords) {
  const Position position = sample_start();
  EXPECT_EQ(turn_words(position, Side::light), "");
  EXPECT_EQ(position_title(position, {}), "light and dark");
}

TEST(Wording, CubeFacesStayShort) {
  EXPECT_EQ(cube_face(1).text, "1");
  EXPECT_EQ(cube_face(64).text, "64");
  EXPECT_EQ(cube_face(65536).text, "65536");
  EXPECT_EQ(cube_face(std::uint64_t{1} << 20).text, "2²⁰");
  EXPECT_EQ(cube_face(std::uint64_t{1} << 61).text, "2⁶¹");
}

TEST(Wording, ShortensByCharactersNotBytes) {
  EXPECT_EQ(shortened("Elfenbein", 9), "Elfenbein");
  EXPECT_EQ(shortened("Nussbäume", 9), "Nussbäume");
  EXPECT_EQ(shortened("Nussbäumen", 9), "Nussbäum…");
  EXPECT_EQ(shortened("ééé", 2), "é…");
}

}  // namespace
}  // namespace pointwright

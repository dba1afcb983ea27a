#include "studio/board_layout.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <set>

#include "studio/board_marks.hpp"
#include "tests/studio/sample.hpp"

namespace pointwright {
namespace {

using namespace drawing;

std::vector<View> all_views() {
  std::vector<View> views;
  for (const Side bottom : {Side::light, Side::dark}) {
    for (const bool left : {false, true}) {
      for (const Side numbering : {Side::light, Side::dark}) {
        views.push_back({bottom, left, numbering});
      }
    }
  }
  return views;
}

BoardPicture seen(const View& view) {
  BoardPicture picture;
  picture.view = view;
  return picture;
}

std::vector<const Shape*> with_role(const Frame& frame, Role role) {
  std::vector<const Shape*> found;
  for (const Layer& layer : frame.layers) {
    for (const Shape& shape : layer.shapes) {
      if (shape.role == role && !std::holds_alternative<Stamp>(shape.form)) {
        found.push_back(&shape);
      }
    }
  }
  return found;
}

std::vector<std::string> texts(const Frame& frame, Role role) {
  std::vector<std::string> found;
  for (const Shape* shape : with_role(frame, role)) {
    found.push_back(std::get<Label>(shape->form).text);
  }
  return found;
}

TEST(BoardGeometry, HomeOfTheBottomSideLiesAtTheBottomBesideItsTray) {
  for (const View& view : all_views()) {
    const BoardGeometry geometry(view, true);
    for (Place point = 1; point <= 24; ++point) {
      const Spot spot = geometry.checker(view.bottom, point, 0);
      EXPECT_EQ(spot.y > geometry.middle(), point <= 12);
      const bool beside_tray = (spot.x < BoardGeometry::width / 2) == view.home_on_left;
      EXPECT_EQ(beside_tray, point <= 6 || point >= 19) << int{point};
    }
    EXPECT_EQ(geometry.tray_x() < geometry.cube_x(), view.home_on_left);
  }
}

TEST(BoardGeometry, BothSidesAgreeOnEveryPointAndNoTwoPointsShareAPlace) {
  for (const View& view : all_views()) {
    const BoardGeometry geometry(view, true);
    std::set<std::pair<double, double>> places;
    for (Place point = 1; point <= 24; ++point) {
      const Spot own = geometry.checker(Side::light, point, 0);
      EXPECT_EQ(own, geometry.checker(Side::dark, mirrored(point), 0));
      places.insert({own.x, own.y});
    }
    EXPECT_EQ(places.size(), 24U);
  }
}

TEST(BoardGeometry, NeighbouringPointsAreOnePitchApartInTheDirectionOfTravel) {
  for (const View& view : all_views()) {
    const BoardGeometry geometry(view, false);
    for (Place point = 2; point <= 12; ++point) {
      const double step = geometry.checker(view.bottom, static_cast<Place>(point - 1), 0).x -
                          geometry.checker(view.bottom, point, 0).x;
      const double across = point == 7 ? BoardGeometry::bar_width : 0;
      EXPECT_DOUBLE_EQ(step, (view.home_on_left ? -1 : 1) * (BoardGeometry::pitch + across));
    }
  }
}

TEST(BoardGeometry, ACheckerOnTheBarWaitsOnTheHalfThatItEnters) {
  for (const View& view : all_views()) {
    const BoardGeometry geometry(view, true);
    for (const Side side : {Side::light, Side::dark}) {
      EXPECT_EQ(geometry.checker(side, bar_place, 0).y < geometry.middle(),
                geometry.checker(side, 24, 0).y < geometry.middle());
    }
  }
}

// Every checker of every stack, however tall, stays on the board, and up to the tallest stack that
// is drawn touches no other.
TEST(BoardGeometry, CheckersStandApartAndOnTheBoard) {
  for (const View& view : all_views()) {
    const BoardGeometry geometry(view, true);
    std::vector<Spot> spots;
    for (const Side side : {Side::light, Side::dark}) {
      for (Place place = 1; place <= bar_place; ++place) {
        if (side == Side::dark && place != bar_place) {
          continue;  // the same places as light's
        }
        for (int height = 0; height < BoardGeometry::tallest_stack; ++height) {
          spots.push_back(geometry.checker(side, place, height));
        }
        EXPECT_EQ(geometry.checker(side, place, 14), spots.back());
      }
    }
    const double radius = BoardGeometry::checker_radius;
    for (std::size_t i = 0; i < spots.size(); ++i) {
      EXPECT_GE(spots[i].y - radius, geometry.field_top());
      EXPECT_LE(spots[i].y + radius, geometry.field_bottom());
      for (std::size_t j = 0; j < i; ++j) {
        EXPECT_GE(std::hypot(spots[i].x - spots[j].x, spots[i].y - spots[j].y), 2 * radius);
      }
    }
    for (int height = 0; height < checkers_per_side; ++height) {
      const double below = geometry.checker(view.bottom, off_place, height).y;
      EXPECT_GT(below, geometry.middle() + 30);
      EXPECT_LT(below, geometry.field_bottom());
    }
  }
}

TEST(BoardGeometry, APlaceHoldsAllItsCheckers) {
  for (const View& view : all_views()) {
    const BoardGeometry geometry(view, true);
    for (const Side side : {Side::light, Side::dark}) {
      for (int place = off_place; place <= bar_place; ++place) {
        const Box box = place_box(geometry, side, static_cast<Place>(place));
        for (int height = 0; height < checkers_per_side; ++height) {
          const Spot spot = geometry.checker(side, static_cast<Place>(place), height);
          EXPECT_GE(spot.x, box.corner.x);
          EXPECT_LE(spot.x, box.corner.x + box.width);
          EXPECT_GE(spot.y, box.corner.y);
          EXPECT_LE(spot.y, box.corner.y + box.height);
        }
      }
    }
  }
}

TEST(BoardFrame, DrawsEveryCheckerAndCountsTallStacks) {
  const Position position = sample({{bar_place, 6}, {6, 5}, {1, 2}}, {{24, 1}, {6, 9}});
  const Frame frame = board_frame(position, {});
  std::map<std::pair<Side, int>, int> drawn;
  for (const Shape& shape : frame.layer(Layer::Kind::checkers)->shapes) {
    if (shape.checker) {
      ++drawn[{shape.checker->side, shape.checker->place}];
      EXPECT_EQ(std::get<Stamp>(shape.form).at,
                BoardGeometry({}, true).checker(shape.checker->side, shape.checker->place,
                                                shape.checker->height));
    }
  }
  const std::map<std::pair<Side, int>, int> expected{
      {{Side::light, bar_place}, 5}, {{Side::light, 6}, 5}, {{Side::light, 1}, 2},
      {{Side::light, off_place}, 2}, {{Side::dark, 24}, 1}, {{Side::dark, 6}, 5},
      {{Side::dark, off_place}, 5}};
  EXPECT_EQ(drawn, expected);
  EXPECT_THAT(texts(frame, Role::count_on_light), testing::ElementsAre("6"));
  EXPECT_THAT(texts(frame, Role::count_on_dark), testing::ElementsAre("9"));
  EXPECT_THAT(texts(frame, Role::tray_count), testing::ElementsAre("2", "5"));
}

TEST(BoardFrame, NumbersThePointsForTheSideAskedFor) {
  for (const View& view : all_views()) {
    const BoardGeometry geometry(view, true);
    const Frame frame = board_frame(sample_start(), seen(view));
    const auto numbers = with_role(frame, Role::number);
    ASSERT_EQ(numbers.size(), 24U);
    for (const Shape* shape : numbers) {
      const auto& label = std::get<Label>(shape->form);
      const auto point = static_cast<Place>(std::stoi(label.text));
      const Spot expected = geometry.checker(view.numbering, point, 0);
      EXPECT_DOUBLE_EQ(label.at.x, expected.x);
      EXPECT_EQ(label.at.y < geometry.middle(), expected.y < geometry.middle());
    }
  }
}

TEST(BoardFrame, HatchesEveryOtherPoint) {
  const Frame frame = board_frame(sample_start(), {});
  EXPECT_EQ(with_role(frame, Role::point_hatched).size(), 12U);
  EXPECT_EQ(with_role(frame, Role::point_plain).size(), 12U);
}

TEST(BoardFrame, ShowsTheRollOnTheThrowersRight) {
  for (const View& view : all_views()) {
    for (const Side side : {Side::light, Side::dark}) {
      Position position = sample_start();
      position.turn = side;
      position.roll = Roll(2, 6);
      const Frame frame = board_frame(position, seen(view));
      const bool light = side == Side::light;
      const auto dice = with_role(frame, light ? Role::die_light : Role::die_dark);
      ASSERT_EQ(dice.size(), 2U);
      EXPECT_EQ(with_role(frame, light ? Role::pip_on_light : Role::pip_on_dark).size(), 8U);
      const bool right_half = std::get<Box>(dice[0]->form).corner.x > BoardGeometry::width / 2;
      EXPECT_EQ(right_half, side == view.bottom);
    }
  }
}

TEST(BoardFrame, CubeLiesWithItsHolder) {
  for (const View& view : all_views()) {
    const BoardGeometry geometry(view, true);
    const auto cube_y = [&](std::optional<Side> holder) {
      Position position = sample_start();
      position.cube = {4, holder};
      const Frame frame = board_frame(position, seen(view));
      EXPECT_THAT(texts(frame, Role::cube_value), testing::ElementsAre("4"));
      const Box box = std::get<Box>(with_role(frame, Role::cube).at(0)->form);
      return box.corner.y + box.height / 2;
    };
    EXPECT_DOUBLE_EQ(cube_y({}), geometry.middle());
    EXPECT_GT(cube_y(view.bottom), geometry.middle() + 100);
    EXPECT_LT(cube_y(opponent(view.bottom)), geometry.middle() - 100);
  }
}

TEST(BoardFrame, NoCubeWhereTheHouseHasNone) {
  Position position = sample_start();
  position.house.cube = false;
  EXPECT_TRUE(with_role(board_frame(position, {}), Role::cube).empty());
}

TEST(BoardFrame, ACubeOnOfferShowsWhatItWouldBecome) {
  Position position = sample_start();
  position.cube = {2, Side::dark};
  position.turn = Side::dark;
  BoardPicture picture;
  picture.offered_by = Side::dark;
  EXPECT_THAT(texts(board_frame(position, picture), Role::cube_value), testing::ElementsAre("4"));
}

TEST(BoardFrame, MarksStandAtTheirPointWhicheverSideCountsIt) {
  BoardPicture picture;
  picture.view.numbering = Side::dark;
  picture.marks = {{Side::light, 20}, {Side::dark, 3}, {Side::light, bar_place}};
  const Frame frame = board_frame(sample_start(), picture);
  EXPECT_EQ(with_role(frame, Role::mark).size(), 3U);
  EXPECT_THAT(texts(frame, Role::mark_number), testing::ElementsAre("5", "3"));
}

TEST(BoardFrame, ArrowsLandOnTheNextFreePlaceOneAfterAnother) {
  BoardPicture picture;
  picture.arrows = {{Side::light, 8, 5}, {Side::light, 6, 5}, {Side::light, 5, 4}};
  const Frame frame = board_frame(sample_start(), picture);
  const BoardGeometry geometry(picture.view, true);
  const auto heads = with_role(frame, Role::arrow_head);
  ASSERT_EQ(heads.size(), 3U);
  const auto tip = [&](std::size_t i) { return std::get<Path>(heads[i]->form).segments[0].to; };
  EXPECT_EQ(tip(0), geometry.checker(Side::light, 5, 0));
  EXPECT_EQ(tip(1), geometry.checker(Side::light, 5, 1));
  EXPECT_EQ(tip(2), geometry.checker(Side::light, 4, 0));
}

TEST(BoardFrame, ARefusalDiffersFromAnArrowInShape) {
  BoardPicture picture;
  picture.arrows = {{Side::light, 24, 19, true}};
  const Frame frame = board_frame(sample_start(), picture);
  EXPECT_TRUE(with_role(frame, Role::arrow_head).empty());
  EXPECT_TRUE(with_role(frame, Role::arrow_line).empty());
  EXPECT_EQ(with_role(frame, Role::refusal_line).size(), 1U);
  ASSERT_EQ(with_role(frame, Role::refusal_cross).size(), 1U);
  const Disc disc = std::get<Disc>(with_role(frame, Role::refusal_disc).at(0)->form);
  // On the topmost of the five dark checkers that stand in the way.
  EXPECT_EQ(disc.centre, BoardGeometry({}, true).checker(Side::dark, 6, 4));
  const Path line = std::get<Path>(with_role(frame, Role::refusal_line).at(0)->form);
  const Spot end = line.segments.back().to;
  EXPECT_NEAR(std::hypot(end.x - disc.centre.x, end.y - disc.centre.y), disc.radius, 4);
}

TEST(BoardFrame, ArrowsThatGoNowhereStillDraw) {
  BoardPicture picture;
  picture.arrows = {{Side::light, 20, 20}, {Side::dark, off_place, bar_place}};
  const Frame frame = board_frame(sample({}, {}), picture);
  int seen = 0;
  for (const Shape& shape : frame.layers.back().shapes) {
    if (const auto* path = std::get_if<Path>(&shape.form)) {
      for (const Segment& segment : path->segments) {
        EXPECT_TRUE(std::isfinite(segment.to.x) && std::isfinite(segment.to.y));
        ++seen;
      }
    }
  }
  EXPECT_GT(seen, 0);
}

TEST(BoardFrame, MarginsTellNamesTurnAndTally) {
  Position position = sample({{6, 2}}, {{6, 1}, {1, 1}});
  position.turn = Side::dark;
  position.roll = Roll(6, 5);
  position.match = MatchScore{5, {3, 4}, false};
  BoardPicture picture;
  picture.names.of = {"Ivory", "Walnut"};
  Frame frame = board_frame(position, picture);
  EXPECT_THAT(texts(frame, Role::side_name), testing::ElementsAre("Ivory", "Walnut"));
  EXPECT_THAT(texts(frame, Role::side_status), testing::ElementsAre("to play 6-5"));
  EXPECT_THAT(texts(frame, Role::side_note),
              testing::ElementsAre("12 pips, 3 of 5", "7 pips, 4 of 5"));
  picture.margins = false;
  frame = board_frame(position, picture);
  EXPECT_TRUE(with_role(frame, Role::side_name).empty());
  EXPECT_DOUBLE_EQ(frame.height, BoardGeometry::board_height);
}

}  // namespace
}  // namespace pointwright

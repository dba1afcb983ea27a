#include "film/motion.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/film/sample_film.hpp"
#include "tests/page/sample_course.hpp"

namespace pointwright::film {
namespace {

/// A shot in which one step is done on a board.
class OneStep {
 public:
  OneStep(const std::string& before, Step::Kind kind, const std::string& action,
          const std::string& after, const std::vector<Arrow>& arrows)
      : course_(spoken_course({{"Words.", 0}})) {
    Scene& scene = *course_.chapters[0].parts[0].scene;
    scene.position = before;
    Step& step = scene.steps[0];
    step.kind = kind;
    step.action = action;
    step.position = after;
    step.arrows = arrows;
    shots_ = *shots_of(course_);
  }
  [[nodiscard]] const Shot& shot() const { return shots_[0]; }
  [[nodiscard]] const Beat& beat() const { return shots_[0].beats[0]; }

 private:
  Storyboard course_;
  std::vector<Shot> shots_;
};

int checkers_in(const drawing::Frame& frame, Side side, Place place) {
  int count = 0;
  for (const drawing::Shape& shape : frame.layer(drawing::Layer::Kind::checkers)->shapes) {
    count += shape.checker && shape.checker->side == side && shape.checker->place == place ? 1 : 0;
  }
  return count;
}

TEST(Motion, ACheckerTravelsFromPlaceToPlace) {
  const OneStep step("light 8x2 6x2; dark 24x2; light to play 3-1", Step::Kind::move, "8/5",
                     "light 8x1 6x2 5x1; dark 24x2; light to play 3-1",
                     {{Side::light, 8, 5, false}});
  const Motion motion(step.shot());
  const Beat& beat = step.beat();
  const BoardGeometry geometry(View{}, true);
  const Moment first = motion.at(beat.begin);
  ASSERT_EQ(first.sprites.size(), 1U);
  EXPECT_EQ(first.sprites[0].at, geometry.checker(Side::light, 8, 1));
  EXPECT_EQ(checkers_in(motion.stills()[first.still], Side::light, 8), 1) << "it has left";
  EXPECT_EQ(checkers_in(motion.stills()[first.still], Side::light, 5), 0) << "nor arrived";
  const Moment last = motion.at(beat.begin + beat.motion - Milliseconds{1});
  ASSERT_EQ(last.sprites.size(), 1U);
  const drawing::Spot to = geometry.checker(Side::light, 5, 0);
  EXPECT_NEAR(last.sprites[0].at.x, to.x, 0.1);
  EXPECT_NEAR(last.sprites[0].at.y, to.y, 0.1);
  const Moment middle = motion.at(beat.begin + beat.motion / 2);
  EXPECT_GT(middle.sprites[0].scale, 1.1) << "it is lifted";
  const Moment after = motion.at(beat.begin + beat.motion);
  EXPECT_TRUE(after.sprites.empty());
  EXPECT_EQ(checkers_in(motion.stills()[after.still], Side::light, 5), 1);
}

TEST(Motion, AHitCheckerGoesToTheBar) {
  const OneStep step("light 8x1; dark 20x1; light to play 3-1", Step::Kind::move, "8/5*",
                     "light 5x1; dark barx1; light to play 3-1", {{Side::light, 8, 5, false}});
  const Motion motion(step.shot());
  const Beat& beat = step.beat();
  const BoardGeometry geometry(View{}, true);
  const Moment hit = motion.at(beat.begin + beat.motion - Milliseconds{1});
  ASSERT_EQ(hit.sprites.size(), 1U);
  const drawing::Spot bar = geometry.checker(Side::dark, bar_place, 0);
  EXPECT_NEAR(hit.sprites[0].at.x, bar.x, 0.1);
  EXPECT_NEAR(hit.sprites[0].at.y, bar.y, 0.1);
}

TEST(Motion, ARefusedPlayIsTakenBackAndItsArrowAppears) {
  const std::string position = "light 8x2; dark 24x2; light to play 3-1";
  const OneStep step(position, Step::Kind::attempt, "8/6", position, {{Side::light, 8, 6, true}});
  const Motion motion(step.shot());
  const Beat& beat = step.beat();
  const BoardGeometry geometry(View{}, true);
  const Moment middle = motion.at(beat.begin + beat.motion / 2);
  EXPECT_NEAR(middle.sprites[0].at.x, geometry.checker(Side::light, 6, 0).x, 0.1);
  const Moment back = motion.at(beat.begin + beat.motion - Milliseconds{1});
  EXPECT_NEAR(back.sprites[0].at.x, geometry.checker(Side::light, 8, 1).x, 0.1);
  const Moment arrow = motion.at(beat.begin + beat.motion + Milliseconds{100});
  ASSERT_EQ(arrow.sprites.size(), 1U);
  EXPECT_GT(arrow.sprites[0].opacity, 0);
  EXPECT_LT(arrow.sprites[0].opacity, 1);
  const Moment end = motion.at(step.shot().length);
  EXPECT_FALSE(motion.stills()[end.still].layer(drawing::Layer::Kind::arrows)->shapes.empty());
}

TEST(Motion, DiceComeToRestWhereTheyLie) {
  const OneStep step("light 8x2; dark 24x2; light to roll", Step::Kind::roll, "6-1",
                     "light 8x2; dark 24x2; light to play 6-1", {});
  const Motion motion(step.shot());
  const Beat& beat = step.beat();
  EXPECT_EQ(motion.at(beat.begin).sprites.size(), 2U);
  const Moment last = motion.at(beat.begin + beat.motion - Milliseconds{1});
  for (const Sprite& die : last.sprites) EXPECT_NEAR(die.turn, 0, 0.01);
  const Moment after = motion.at(beat.begin + beat.motion);
  EXPECT_TRUE(after.sprites.empty());
  EXPECT_FALSE(motion.stills()[after.still].layer(drawing::Layer::Kind::dice)->shapes.empty());
}

TEST(Motion, EveryShotOfACourseEndsAsItsLastPictureSays) {
  const Storyboard course = sample_course();
  const auto shots = shots_of(course);
  for (const Shot& shot : *shots) {
    const Motion motion(shot);
    const Moment end = motion.at(shot.length);
    EXPECT_TRUE(end.sprites.empty()) << shot.id;
    for (const Side side : {Side::light, Side::dark}) {
      for (Place place = 1; place <= bar_place; ++place) {
        EXPECT_EQ(checkers_in(motion.stills()[end.still], side, place),
                  std::min(shot.end().board.count(side, place), BoardGeometry::tallest_stack));
      }
    }
    // No checker is lost or doubled on the way.
    for (Milliseconds time{0}; time < shot.length; time += Milliseconds{40}) {
      const Moment moment = motion.at(time);
      ASSERT_LT(moment.still, motion.stills().size());
      for (const Sprite& sprite : moment.sprites) {
        EXPECT_GE(sprite.at.x, 0);
        EXPECT_LE(sprite.at.x, BoardGeometry::width);
      }
    }
  }
}

TEST(PictureRecipe, TellsShotsApartByWhatIsSeen) {
  Storyboard course = spoken_course({{"One thing.", 3}});
  const std::string before = picture_recipe(shots_of(course)->front());
  Step& step = course.chapters[0].parts[0].scene->steps[0];
  step.words = "Other words in the same time.";
  step.source.line = 99;
  EXPECT_EQ(picture_recipe(shots_of(course)->front()), before);
  step.marks.push_back({Side::light, 6});
  EXPECT_NE(picture_recipe(shots_of(course)->front()), before);
}

}  // namespace
}  // namespace pointwright::film

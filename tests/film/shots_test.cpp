#include "film/shots.hpp"

#include <gtest/gtest.h>

#include <set>

#include "film/shot_list.hpp"
#include "tests/film/sample_film.hpp"
#include "tests/page/sample_course.hpp"

namespace pointwright::film {
namespace {

TEST(Shots, BeatsFollowOneAnotherAndFillTheShot) {
  const Storyboard storyboard = sample_course();
  const auto shots = shots_of(storyboard);
  ASSERT_TRUE(shots.ok());
  ASSERT_FALSE(shots->empty());
  std::set<std::string> ids;
  int number = 0;
  for (const Shot& shot : *shots) {
    EXPECT_EQ(shot.number, ++number);
    EXPECT_TRUE(ids.insert(shot.id).second) << shot.id;
    Milliseconds at = Pace{}.lead;
    for (const Beat& beat : shot.beats) {
      EXPECT_EQ(beat.begin, at);
      EXPECT_LE(beat.speech, beat.length);
      EXPECT_LE(beat.motion, beat.length);
      at = beat.end();
    }
    EXPECT_EQ(shot.length, shot.beats.empty() ? Pace{}.still : at + Pace{}.tail);
  }
}

TEST(Shots, ADurationAskedForWins) {
  const Storyboard asked = spoken_course({{"Count every one of them, slowly.", 7.25}});
  EXPECT_EQ(shots_of(asked)->front().beats.front().length, Milliseconds{7250});
  const Storyboard free = spoken_course({{"Count every one of them, slowly.", 0}});
  const Pace pace;
  EXPECT_EQ(shots_of(free)->front().beats.front().length,
            speaking_time("Count every one of them, slowly.", pace) + pace.breath);
}

TEST(Shots, AFasterPaceIsShorter) {
  const Storyboard course = spoken_course({{"Count every one of them, slowly.", 0}});
  Pace fast;
  fast.words_a_minute = 280;
  EXPECT_LT(running_time(*shots_of(course, fast)), running_time(*shots_of(course)));
}

TEST(Shots, ANewSetUpBeginsANewShot) {
  Storyboard course = spoken_course({{"One.", 0}, {"Two.", 0}, {"Three.", 0}});
  Scene& scene = *course.chapters[0].parts[0].scene;
  scene.steps[1].kind = Step::Kind::place;
  scene.steps[1].position = "light 5x2; dark 5x2";
  scene.steps[2].position = "light 5x2; dark 5x2";
  const auto shots = shots_of(course);
  ASSERT_EQ(shots->size(), 2U);
  EXPECT_TRUE((*shots)[0].opens_scene);
  EXPECT_FALSE((*shots)[1].opens_scene);
  EXPECT_EQ((*shots)[1].beats.size(), 2U);
  EXPECT_EQ(to_text((*shots)[1].start.board), to_text(read_position("light 5x2; dark 5x2")->board));
  EXPECT_EQ((*shots)[1].id, (*shots)[0].id + "-2");
}

TEST(Shots, SayWhereAStoryboardIsWrong) {
  Storyboard course = spoken_course({{"One.", 0}});
  course.chapters[0].parts[0].scene->steps[0].position = "light 99x1; dark 5x2";
  const auto shots = shots_of(course);
  ASSERT_FALSE(shots.ok());
  EXPECT_EQ(shots.error().where, "chapter chapter, board board, step 1");
}

TEST(Shots, ClockText) {
  EXPECT_EQ(clock_text(Milliseconds{0}), "0:00");
  EXPECT_EQ(clock_text(Milliseconds{64'499}), "1:04");
  EXPECT_EQ(clock_text(Milliseconds{3'729'000}), "1:02:09");
}

TEST(ShotList, QuotesWhatATableNeedsQuoted) {
  EXPECT_EQ(to_csv({{"a", "b,c", "say \"no\"", "two\nlines"}, {"=1+1", "", "-", "x"}}),
            "a,\"b,c\",\"say \"\"no\"\"\",\"two\nlines\"\r\n'=1+1,,'-,x\r\n");
}

TEST(ShotList, SaysWhatIsSaidAndDone) {
  const Storyboard course = sample_course();
  const auto shots = shots_of(course);
  const std::string table = shot_list_csv(*shots);
  EXPECT_NE(table.find("13/9 13/11 is tried, and refused"), std::string::npos);
  EXPECT_NE(table.find("Not before the checker is in."), std::string::npos);
  EXPECT_EQ(std::count(table.begin(), table.end(), '\r'), static_cast<long>(shots->size()) + 1);
}

}  // namespace
}  // namespace pointwright::film

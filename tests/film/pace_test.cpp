#include "film/pace.hpp"

#include <gtest/gtest.h>

namespace pointwright::film {
namespace {

TEST(Pace, CountsWordsAsTheyAreSpoken) {
  EXPECT_EQ(spoken_words(""), 0);
  EXPECT_EQ(spoken_words(" - ... "), 0);
  EXPECT_EQ(spoken_words("One."), 1);
  EXPECT_EQ(spoken_words("That is a well-known play."), 5);
  EXPECT_EQ(spoken_words("6-4, or 24/18"), 5);
  EXPECT_EQ(spoken_words("Denim's checker isn't home"), 4);
  EXPECT_EQ(spoken_words("Denim\xE2\x80\x99s checker"), 2);
  EXPECT_EQ(spoken_words("na\xC3\xAFve \xE2\x80\x94 or not"), 3);
}

TEST(Pace, WordsTakeTheirTimeAndPausesAreAdded) {
  Pace pace;
  pace.words_a_minute = 120;  // half a second each
  EXPECT_EQ(speaking_time("", pace), Milliseconds{0});
  EXPECT_EQ(speaking_time("three words here", pace), Milliseconds{1500});
  EXPECT_EQ(speaking_time("three words here.", pace), Milliseconds{1500} + pace.sentence_pause);
  EXPECT_EQ(speaking_time("Yes, now. No!", pace),
            Milliseconds{1500} + pace.clause_pause + 2 * pace.sentence_pause);
  EXPECT_EQ(speaking_time("It costs 0.25 here", pace), Milliseconds{2500})
      << "no pause in a number";
}

TEST(Pace, FramesAreRoundedToTheNearest) {
  EXPECT_EQ(frame_at(Milliseconds{0}, 30), 0);
  EXPECT_EQ(frame_at(Milliseconds{1000}, 30), 30);
  EXPECT_EQ(frame_at(Milliseconds{16}, 30), 0);
  EXPECT_EQ(frame_at(Milliseconds{17}, 30), 1);
}

}  // namespace
}  // namespace pointwright::film

#include "app/make/voice.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <csignal>

#include "app/interrupt.hpp"
#include "app/make/run_program.hpp"
#include "film/voice.hpp"
#include "tests/app/temporary_folder.hpp"
#include "tests/film/sample_film.hpp"

/// The guide voice, spoken by espeak-ng.
namespace pointwright::app {
namespace {

using film::Milliseconds;
using testing::HasSubstr;
using testing::IsEmpty;

/// Whether anything is heard between two times.
bool is_heard(const film::Sound& sound, Milliseconds from, Milliseconds to) {
  const auto at = [&](Milliseconds time) {
    const auto sample = static_cast<std::ptrdiff_t>(time.count() * sound.rate / 1000);
    return sound.samples.begin() +
           std::min(sample, static_cast<std::ptrdiff_t>(sound.samples.size()));
  };
  constexpr int quiet = 300;
  return std::any_of(at(from), at(to),
                     [](std::int16_t sample) { return std::abs(sample) > quiet; });
}

TEST(VoiceTrack, IsAsLongAsTheShotAndSpeaksWhereTheWordsAre) {
  const TemporaryFolder folder;
  const Storyboard course = film::spoken_course(
      {{"A first sentence to be heard.", 0}, {"", 2.0}, {"And a last one.", 0}});
  const auto shots = film::shots_of(course);
  const film::Shot& shot = shots->front();
  ASSERT_FALSE(write_voice(shot, folder / "a.wav", {}));
  const auto sound = film::read_wave(contents(folder / "a.wav"));
  ASSERT_TRUE(sound);
  EXPECT_LE(std::abs((sound->length() - shot.length).count()), 1);
  EXPECT_FALSE(is_heard(*sound, Milliseconds{0}, shot.beats[0].begin));
  EXPECT_TRUE(is_heard(*sound, shot.beats[0].begin, shot.beats[0].end()));
  EXPECT_FALSE(is_heard(*sound, shot.beats[1].begin, shot.beats[1].end()));
  EXPECT_TRUE(is_heard(*sound, shot.beats[2].begin, shot.beats[2].end()));
  EXPECT_FALSE(is_heard(*sound, shot.beats[2].end(), shot.length));
  EXPECT_THAT(contents(folder / "a.wav"), HasSubstr("Not for publication"));
}

TEST(VoiceTrack, AMissingSynthesiserIsSaid) {
  const TemporaryFolder folder;
  const Storyboard course = film::spoken_course({{"Hello.", 0}});
  const auto shots = film::shots_of(course);
  const auto wrong = write_voice(shots->front(), folder / "a.wav", {.program = "no-such-voice"});
  ASSERT_TRUE(wrong);
  EXPECT_EQ(wrong->faults.front().id, "missing-program");
  EXPECT_THAT(wrong->faults.front().fix, HasSubstr("leave voice out"));
  EXPECT_FALSE(is_installed("no-such-voice"));
  EXPECT_TRUE(is_installed("espeak-ng"));
  EXPECT_THAT(folder.names(), IsEmpty());
}

TEST(VoiceTrack, ASynthesiserThatFailsLeavesNothingBehind) {
  const TemporaryFolder folder;
  const Storyboard course = film::spoken_course({{"Hello.", 0}});
  const auto shots = film::shots_of(course);
  for (const char* program : {"false", "true"}) {
    const auto wrong = write_voice(shots->front(), folder / "a.wav", {.program = program});
    ASSERT_TRUE(wrong);
    EXPECT_EQ(wrong->faults.front().id, "cannot-speak");
  }
  const auto language = write_voice(shots->front(), folder / "a.wav", {.language = "xx-none"});
  ASSERT_TRUE(language);
  EXPECT_THAT(language->faults.front().fix, HasSubstr("a voice for `xx`"));
  const InterruptWatch watch;
  std::raise(SIGINT);
  EXPECT_EQ(write_voice(shots->front(), folder / "a.wav", {})->faults.front().id, "interrupted");
  EXPECT_THAT(folder.names(), IsEmpty());
}

}  // namespace
}  // namespace pointwright::app

#include "film/voice.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace pointwright::film {
namespace {

using testing::Each;
using testing::HasSubstr;

Sound tone(int rate, std::size_t samples) {
  Sound sound{.rate = rate, .samples = {}};
  for (std::size_t i = 0; i < samples; ++i) {
    sound.samples.push_back(
        static_cast<std::int16_t>(12000 * std::sin(static_cast<double>(i) / 9)));
  }
  return sound;
}

TEST(Voice, PlaysAndRollsAreReadAsTheyAreSpoken) {
  EXPECT_EQ(words_to_read("24/18/14 with the 6-4."), "24 to 18 to 14 with the 6 4.");
  EXPECT_EQ(words_to_read("bar/20* hits"), "bar to 20, hitting hits");
  EXPECT_EQ(words_to_read("well-known and/or"), "well-known and/or");
  EXPECT_EQ(words_to_read("one\ntwo\x01"), "one two ");
}

TEST(Voice, WhatIsWrittenIsReadBack) {
  for (const std::size_t length : {0U, 1U, 2U, 999U}) {
    const Sound sound = tone(22050, length);
    const std::string wave = to_wave(sound, "A guide.");
    EXPECT_EQ(wave.size() % 2, 0U);
    EXPECT_THAT(wave, HasSubstr("A guide."));
    const auto read = read_wave(wave);
    ASSERT_TRUE(read);
    EXPECT_EQ(read->rate, sound.rate);
    EXPECT_EQ(read->samples, sound.samples);
  }
}

TEST(Voice, DamagedSoundIsNoSound) {
  const std::string wave = to_wave(tone(22050, 50), "x");
  for (std::size_t length = 0; length < wave.size(); ++length) {
    const auto read = read_wave(wave.substr(0, length));
    if (read) EXPECT_LE(read->samples.size(), 50U);
  }
  for (std::size_t at = 0; at < 60; ++at) {
    std::string damaged = wave;
    damaged[at] = '\xff';
    if (const auto read = read_wave(damaged)) EXPECT_LE(read->samples.size(), 100U);
  }
}

TEST(Voice, IsLaidWhereItIsSpokenAndNoLonger) {
  Sound track{.rate = 1000, .samples = std::vector<std::int16_t>(1000, 0)};
  const Sound piece{.rate = 1000, .samples = std::vector<std::int16_t>(400, 7)};
  lay(track, piece, Milliseconds{100}, Milliseconds{250});
  EXPECT_EQ(std::count(track.samples.begin(), track.samples.end(), 7), 250);
  EXPECT_EQ(track.samples[99], 0);
  EXPECT_EQ(track.samples[100], 7);
  lay(track, piece, Milliseconds{900}, Milliseconds{1000});
  EXPECT_EQ(std::count(track.samples.begin(), track.samples.end(), 7), 350);
  lay(track, piece, Milliseconds{5000}, Milliseconds{1000});
  EXPECT_EQ(track.samples.size(), 1000U);
}

}  // namespace
}  // namespace pointwright::film

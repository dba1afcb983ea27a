#pragma once

#include <chrono>
#include <string_view>

/// How long things take on film. All times are whole milliseconds, so that captions, clips and the
/// timeline agree to the last frame.
namespace pointwright::film {

using Milliseconds = std::chrono::milliseconds;

/// How fast the teacher speaks and how long the picture rests. The defaults are ours, chosen by
/// watching; about 140 words a minute is an unhurried speaking voice (common practice).
struct Pace {
  int words_a_minute = 140;
  Milliseconds clause_pause{200};    ///< at a comma, a colon, a semicolon, a dash
  Milliseconds sentence_pause{450};  ///< at the end of a sentence
  Milliseconds breath{250};          ///< after the words or the motion of a beat
  Milliseconds lead{900};            ///< the picture stands before anything happens
  Milliseconds tail{900};            ///< and after everything has happened
  Milliseconds still{4000};          ///< a shot in which nothing is said
  Milliseconds silent_look{1800};    ///< something is pointed at without a word
};

inline constexpr int slowest_pace = 40;
inline constexpr int fastest_pace = 400;

/// Words as they are spoken: "6-4" and "24/18" are two, "well-known" is one.
int spoken_words(std::string_view text);

/// How long it takes to say a text, with the pauses inside it and at its end. Zero for no words.
/// Precondition: slowest_pace <= pace.words_a_minute <= fastest_pace.
Milliseconds speaking_time(std::string_view text, const Pace& pace);

/// The frame that is shown at a time: the time in frames, rounded to the nearest.
/// Precondition: time and fps are not negative.
constexpr long frame_at(Milliseconds time, int fps) {
  return static_cast<long>((time.count() * fps + 500) / 1000);
}

}  // namespace pointwright::film

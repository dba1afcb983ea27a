#pragma once

#include <cstdint>

namespace pointwright::train {

/// What a lesson is between the program that plays and the one that learns. Plain numbers only, for
/// train/learner.cu is compiled by another compiler.
struct LessonRecord {
  std::uint8_t phase;  ///< judge::Phase
  std::uint8_t unused[3];
  std::uint8_t camps[2][26];  ///< first of the side on roll
  std::int16_t counts[24];    ///< judge::Counts
  float target[5];            ///< the chances that the net should give, as in judge::Chances
};
static_assert(sizeof(LessonRecord) == 124);

}  // namespace pointwright::train

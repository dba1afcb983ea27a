#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "film/pace.hpp"

/// Sound of a guide voice: what is spoken in a shot, laid where it is spoken.
namespace pointwright::film {

/// One channel of sound, 16 bits a sample.
struct Sound {
  int rate = 0;  ///< samples a second
  std::vector<std::int16_t> samples;

  [[nodiscard]] Milliseconds length() const;
};

/// Words as a synthesiser is to read them: "24/18*" as "24 to 18, hitting", "6-4" as "6 4".
std::string words_to_read(std::string_view words);

/// Reads a WAV file of one channel and 16 bits (Microsoft and IBM, "Multimedia Programming
/// Interface and Data Specifications 1.0", 1991). Sizes that reach beyond the end are taken for
/// "until the end", as programs write them that do not know yet how much they will say.
std::optional<Sound> read_wave(std::string_view bytes);

/// The sound as a WAV file, with a comment in it for those who look. Precondition: the sound takes
/// less than 2 GiB.
std::string to_wave(const Sound& sound, std::string_view comment);

/// Lays a piece over a track from a time on, for at most so long. What reaches over the end of the
/// track is cut off. Precondition: both have the same rate.
void lay(Sound& track, const Sound& piece, Milliseconds at, Milliseconds at_most);

}  // namespace pointwright::film

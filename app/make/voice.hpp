#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "app/failure.hpp"
#include "film/shots.hpp"

namespace pointwright::app {

struct VoiceOptions {
  std::string program = "espeak-ng";  ///< looked for on the path
  std::string language = "en";        ///< BCP 47
  int words_a_minute = 140;
};

/// Writes a guide voice for a shot: a WAV file as long as the shot, the words of each beat spoken
/// where it begins. Words that would not end with their beat are spoken faster, and cut off if even
/// that is not enough.
std::optional<Failure> write_voice(const film::Shot& shot, const std::filesystem::path& file,
                                   const VoiceOptions& options);

}  // namespace pointwright::app

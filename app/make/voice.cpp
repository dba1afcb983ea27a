#include "app/make/voice.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "app/files.hpp"
#include "app/make/kinds.hpp"
#include "app/make/run_program.hpp"
#include "film/voice.hpp"

/// The guide voice.
namespace pointwright::app {
namespace {

/// Goes into every recipe: raised when the way in which tracks are put together changes.
constexpr int track_version = 1;
constexpr std::string_view comment =
    "A guide voice by a speech synthesiser, to time the shot by ear. Not for publication.";
/// The fastest that the synthesiser speaks clearly (its own manual page).
constexpr int fastest = 450;

/// The synthesiser has voices for languages, not for their regions and scripts.
std::string voice_of(const std::string& language) {
  return language.substr(0, language.find('-'));
}

Result<film::Sound, Failure> speak(const std::string& words, const VoiceOptions& options,
                                   int words_a_minute) {
  const auto run = run_program({options.program, "-v", voice_of(options.language), "-s",
                                std::to_string(words_a_minute), "--stdin", "--stdout"},
                               film::words_to_read(words) + "\n");
  if (!run.ok()) {
    Failure wrong = run.error();
    if (wrong.faults.front().id == "missing-program") {
      wrong.faults.front().reason =
          fmt::format("`{}`, which speaks the guide voice, is not installed", options.program);
      wrong.faults.front().fix =
          fmt::format("install the package {}, or leave voice out of --make", options.program);
    }
    return wrong;
  }
  auto sound = film::read_wave(run->out);
  if (run->status == 0 && sound) return std::move(*sound);
  const std::string why = run->complaints.substr(0, run->complaints.find('\n'));
  return failure(
      "cannot-speak",
      fmt::format("`{}` did not speak{}", options.program, why.empty() ? "" : ": " + harmless(why)),
      fmt::format("see whether it has a voice for `{}`, or leave voice out of --make",
                  harmless(voice_of(options.language))));
}

/// The words of a beat, faster if they would not end with it.
Result<film::Sound, Failure> speak_within(const film::Beat& beat, const VoiceOptions& options) {
  auto sound = speak(beat.words(), options, options.words_a_minute);
  if (!sound.ok() || sound->length() <= beat.length || beat.length.count() == 0) return sound;
  const double haste =
      static_cast<double>(sound->length().count()) / static_cast<double>(beat.length.count());
  const int faster = std::min(fastest, static_cast<int>(options.words_a_minute * haste) + 1);
  return speak(beat.words(), options, std::max(faster, options.words_a_minute));
}

}  // namespace

std::optional<Failure> write_voice(const film::Shot& shot, const std::filesystem::path& file,
                                   const VoiceOptions& options) {
  film::Sound track;
  for (const film::Beat& beat : shot.beats) {
    if (beat.words().empty()) continue;
    const auto spoken = speak_within(beat, options);
    if (!spoken.ok()) return spoken.error();
    if (track.rate == 0) {
      track.rate = spoken->rate;
      track.samples.resize(static_cast<std::size_t>(shot.length.count() * track.rate / 1000));
    }
    if (spoken->rate == track.rate) film::lay(track, *spoken, beat.begin, beat.length);
  }
  return write_new_file(file, film::to_wave(track, comment));
}

void add_voice(const Course& course, std::vector<Product>& products) {
  VoiceOptions options;
  options.language = course.storyboard.language;
  options.words_a_minute = course.options.pace.words_a_minute;
  for (const film::Shot& shot : course.shots) {
    std::string recipe = fmt::format("track {} language {} pace {} length {}\n", track_version,
                                     options.language, options.words_a_minute, shot.length.count());
    bool spoken = false;
    for (const film::Beat& beat : shot.beats) {
      spoken = spoken || !beat.words().empty();
      recipe += fmt::format("{} {} {}\n", beat.begin.count(), beat.length.count(), beat.words());
    }
    if (!spoken) continue;  // no file for a shot in which nobody speaks
    products.push_back({.kind = "voice",
                        .path = fmt::format("voice/{}-guide.wav", shot.id),
                        .recipe = std::move(recipe),
                        .make = [&shot, options](const std::filesystem::path& file) {
                          return write_voice(shot, file, options);
                        }});
  }
}

}  // namespace pointwright::app

#include "film/captions.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>

#include "app/json.hpp"
#include "tests/app/output_of.hpp"
#include "tests/app/temporary_folder.hpp"
#include "tests/film/sample_film.hpp"

/// Captions as the readers of FFmpeg understand them, which know nothing of ours.
namespace pointwright::app {
namespace {

/// The text without what programs do differently at the ends of lines and of the file.
std::string plain(std::string text) {
  std::erase(text, '\r');
  while (text.ends_with("\n\n")) text.pop_back();
  return text;
}

void replace(std::string& text, const std::string& one, const std::string& other) {
  for (std::size_t at = text.find(one); at != std::string::npos; at = text.find(one, at)) {
    text.replace(at, one.size(), other);
  }
}

Storyboard talkative_course() {
  return film::spoken_course(
      {{"Two checkers on one point stand safe, and a single one does not.", 0},
       {"Is 3 < 4 & 5 > 4? Yes: \"24/18*\" hits.", 0},
       {"", 2},
       {"Now a very long sentence that goes on and on, until nobody remembers how it began, what "
        "it "
        "was about, or why anybody should have wanted to say all of it in one breath.",
        0},
       {"Caf\xC3\xA9, na\xC3\xAFve, \xE2\x80\x9Cquoted\xE2\x80\x9D.", 1.5}});
}

TEST(CaptionFiles, AnotherReaderFindsTheSameWordsAtTheSameTimes) {
  const TemporaryFolder folder;
  const Storyboard course = talkative_course();
  const auto cues = film::captions(*film::shots_of(course));
  ASSERT_GT(cues.size(), 5U);
  std::ofstream(folder / "a.vtt", std::ios::binary) << film::to_vtt(cues);
  std::ofstream(folder / "a.srt", std::ios::binary) << film::to_srt(cues);
  for (const char* name : {"a.vtt", "a.srt"}) {
    const std::string file = "'" + (folder / name).string() + "'";
    // Read from either form and written as SubRip by FFmpeg, they are what we write ourselves, but
    // that SubRip has no way to write the signs that begin and end a tag: ours has other signs.
    std::string expected = plain(film::to_srt(cues));
    if (name == std::string("a.vtt")) {
      replace(expected, "\xE2\x80\xB9", "<");
      replace(expected, "\xE2\x80\xBA", ">");
    }
    EXPECT_EQ(plain(output_of("ffmpeg -v error -i " + file + " -c:s srt -f srt -")), expected)
        << name;
    const Json packets = Json::parse(output_of("ffprobe -v error -show_packets -of json " + file),
                                     nullptr, false)["packets"];
    ASSERT_EQ(packets.size(), cues.size()) << name;
    for (std::size_t i = 0; i < cues.size(); ++i) {
      const double begin = std::stod(packets[i]["pts_time"].get<std::string>());
      const double length = std::stod(packets[i]["duration_time"].get<std::string>());
      EXPECT_NEAR(begin * 1000, static_cast<double>(cues[i].begin.count()), 0.5);
      EXPECT_NEAR(length * 1000, static_cast<double>((cues[i].end - cues[i].begin).count()), 0.5);
    }
  }
}

}  // namespace
}  // namespace pointwright::app

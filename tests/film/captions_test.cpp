#include "film/captions.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "tests/film/sample_film.hpp"
#include "tests/page/sample_course.hpp"

namespace pointwright::film {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

/// What a command prints.
std::string output_of(const std::string& command) {
  std::string out;
  std::FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) return out;
  char buffer[4096];
  while (const std::size_t got = std::fread(buffer, 1, sizeof buffer, pipe))
    out.append(buffer, got);
  pclose(pipe);
  return out;
}

/// The packets of a file of captions as ffprobe, an independent reader, understands them: times in
/// seconds, one packet a line. Where a cue has an identifier, ffprobe adds an empty field.
std::string probed(const std::string& contents, const std::string& ending) {
  char name[] = "/tmp/pointwright-captions-XXXXXX";
  const int made = mkstemp(name);
  if (made < 0) return {};
  close(made);
  const std::string file = std::string(name) + ending;
  std::ofstream(file, std::ios::binary) << contents;
  const std::string out =
      output_of("ffprobe -v error -show_entries packet=pts_time,duration_time -of csv=p=0 '" +
                file + "' 2>&1");
  std::filesystem::remove(name);
  std::filesystem::remove(file);
  std::string packets;
  std::istringstream lines(out);
  for (std::string line; std::getline(lines, line);) {
    if (line.ends_with(',')) line.pop_back();
    if (!line.empty()) packets += line + "\n";
  }
  return packets;
}

std::string expected_packets(const std::vector<Cue>& cues) {
  std::string out;
  for (const Cue& cue : cues) {
    char line[64];
    std::snprintf(line, sizeof line, "%.6f,%.6f\n", static_cast<double>(cue.begin.count()) / 1000,
                  static_cast<double>((cue.end - cue.begin).count()) / 1000);
    out += line;
  }
  return out;
}

TEST(CaptionLines, BreakWhereASpeakerPauses) {
  EXPECT_THAT(caption_lines("Short enough.", 42), ElementsAre("Short enough."));
  EXPECT_THAT(caption_lines("Not before the checker is in. The four comes first.", 42),
              ElementsAre("Not before the checker is in.", "The four comes first."));
  EXPECT_THAT(caption_lines("", 42), ElementsAre());
  EXPECT_THAT(caption_lines("  white \n space\tonly between ", 42),
              ElementsAre("white space only between"));
  EXPECT_THAT(caption_lines("aaaaaaaaaaaa bb", 6), ElementsAre("aaaaaaaaaaaa", "bb"));
}

TEST(CaptionLines, LoseNoWordAndKeepToTheLength) {
  const std::string text =
      "When both dice can be played they must be, and when only one of them can, it has to be the "
      "larger of the two, if that is possible; a double asks for as many of its four as there are.";
  for (int length = 12; length <= 60; ++length) {
    std::string joined;
    for (const std::string& line : caption_lines(text, length)) {
      EXPECT_LE(line.size(), static_cast<std::size_t>(length));
      joined += (joined.empty() ? "" : " ") + line;
    }
    EXPECT_EQ(joined, text) << length;
  }
}

TEST(Captions, KeepTheirLimitsAndFollowOneAnother) {
  const Storyboard course = spoken_course(
      {{"When both dice can be played they must be, and when only one of them can, it has to be "
        "the larger of the two, if that is possible; a double asks for as many as there are.",
        0},
       {"Four.", 0},
       {"", 3},
       {"A very, very slow remark.", 20}});
  const CaptionRules rules;
  const auto shots = shots_of(course);
  const auto cues = captions(*shots);
  ASSERT_GE(cues.size(), 4U);
  std::string said;
  Milliseconds last{0};
  for (const Cue& cue : cues) {
    EXPECT_GE(cue.begin, last);
    EXPECT_GT(cue.end, cue.begin);
    EXPECT_LE(cue.lines.size(), static_cast<std::size_t>(rules.lines));
    EXPECT_LE(cue.characters_a_second(), rules.fastest);
    for (const std::string& line : cue.lines) {
      EXPECT_LE(line.size(), static_cast<std::size_t>(rules.line_length));
      said += (said.empty() ? "" : " ") + line;
    }
    last = cue.end;
  }
  EXPECT_LE(last, running_time(*shots));
  const auto& steps = course.chapters[0].parts[0].scene->steps;
  EXPECT_EQ(said, steps[0].words + " " + steps[1].words + " " + steps[3].words);
  // Words that are over do not stay for the rest of twenty seconds.
  EXPECT_LT(cues.back().end - cues.back().begin, Milliseconds{5000});
  EXPECT_EQ(too_fast(cues), 0);
}

TEST(Captions, TellWhenTheyAreTooFastToRead) {
  const Storyboard course = spoken_course({{"Twenty words cannot be read in half a second.", 0.5}});
  EXPECT_EQ(too_fast(captions(*shots_of(course))), 1);
}

TEST(Captions, AnIndependentReaderFindsTheSameTimes) {
  for (const Storyboard& course :
       {sample_course(), spoken_course({{"One & two <i>three</i> --> four.", 0}, {"Five.", 0}})}) {
    const auto cues = captions(*shots_of(course));
    ASSERT_FALSE(cues.empty());
    EXPECT_EQ(probed(to_vtt(cues), ".vtt"), expected_packets(cues));
    EXPECT_EQ(probed(to_srt(cues), ".srt"), expected_packets(cues));
  }
}

TEST(Captions, WordsCannotBecomeMarkupOrTimes) {
  const auto cues = captions(*shots_of(spoken_course({{"a <b> & c --> d", 0}})));
  EXPECT_THAT(to_vtt(cues), HasSubstr("\na &lt;b&gt; &amp; c --&gt; d\n"));
  EXPECT_THAT(to_srt(cues), HasSubstr("\na ‹b› & c --› d\n"));
}

TEST(Captions, FormsOfTheTimes) {
  const std::vector<Cue> cues{{Milliseconds{3'661'007}, Milliseconds{3'662'500}, {"Late."}}};
  EXPECT_EQ(to_vtt(cues), "WEBVTT\n\n1\n01:01:01.007 --> 01:01:02.500\nLate.\n\n");
  EXPECT_EQ(to_srt(cues), "1\n01:01:01,007 --> 01:01:02,500\nLate.\n\n");
}

TEST(ChapterMarks, CoverTheCourseWithoutGaps) {
  const Storyboard course = sample_course();
  const auto shots = shots_of(course);
  const auto marks = chapter_marks(*shots);
  ASSERT_FALSE(marks.empty());
  Milliseconds at{0};
  for (const Mark& mark : marks) {
    EXPECT_EQ(mark.begin, at);
    at = mark.end;
  }
  EXPECT_EQ(at, running_time(*shots));
  EXPECT_THAT(to_vtt(chapter_marks(*shots_of(spoken_course({{"One.", 0}})))),
              HasSubstr("\nA &lt;b&gt;chapter&lt;/b&gt; &amp; more\n"));
}

}  // namespace
}  // namespace pointwright::film

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "film/shots.hpp"

/// Captions of the spoken words, and chapter marks.
namespace pointwright::film {

/// How captions are cut. The limits are those that broadcasters use (common practice): two lines of
/// 42 characters, and 17 characters a second.
struct CaptionRules {
  int line_length = 42;  ///< characters; a longer word stands alone on a longer line
  int lines = 2;
  double fastest = 17;         ///< characters a second that can still be read
  Milliseconds shortest{800};  ///< a caption stays at least so long where there is room
  Milliseconds linger{1200};   ///< and at most so long after its words
};

struct Cue {
  Milliseconds begin{};
  Milliseconds end{};
  std::vector<std::string> lines;  ///< neither empty nor with characters that move a terminal

  /// Characters (code points) of all lines.
  [[nodiscard]] int characters() const;
  [[nodiscard]] double characters_a_second() const;
};

/// Something to jump to.
struct Mark {
  Milliseconds begin{};
  Milliseconds end{};
  std::string title;
};

/// The captions of shots that follow one another, in order, none overlapping another.
std::vector<Cue> captions(const std::vector<Shot>& shots, const CaptionRules& rules = {});

/// The captions of one shot, from its beginning.
std::vector<Cue> captions(const Shot& shot, const CaptionRules& rules = {});

/// The chapters of shots that follow one another; one without shots is left out.
std::vector<Mark> chapter_marks(const std::vector<Shot>& shots);

/// How many captions go by faster than they can be read. Only an asked-for duration or a fast pace
/// makes one.
int too_fast(const std::vector<Cue>& cues, const CaptionRules& rules = {});

/// Text cut into lines of at most `length` characters where a speaker would pause, the lines of
/// like length. A longer word stands alone.
std::vector<std::string> caption_lines(std::string_view text, int length);

/// WebVTT (W3C, "WebVTT: The Web Video Text Tracks Format"), UTF-8.
std::string to_vtt(const std::vector<Cue>& cues);

/// SubRip text: counter, times with a decimal comma, lines, an empty line. It has no standard; this
/// is what players agree on (common practice).
std::string to_srt(const std::vector<Cue>& cues);

/// Chapter marks as WebVTT of kind "chapters".
std::string to_vtt(const std::vector<Mark>& marks);

}  // namespace pointwright::film

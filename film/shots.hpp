#pragma once

#include <optional>
#include <string>
#include <vector>

#include "film/pace.hpp"
#include "rules/position.hpp"
#include "rules/result.hpp"
#include "storyboard/storyboard.hpp"
#include "studio/board_layout.hpp"
#include "studio/page.hpp"

/// The course as a list of shots. Everything on film is made from it: script, stage sheets,
/// captions, clips, timeline.
namespace pointwright::film {

/// One thing that happens in a shot, with the words spoken meanwhile.
struct Beat {
  const Step* step = nullptr;
  Position before;
  Position after;
  BoardPicture picture;  ///< the board when the beat is over
  std::string hands;     ///< what the hands do; empty when they rest
  Milliseconds begin{};  ///< in the shot
  Milliseconds length{};
  Milliseconds speech{};  ///< how long the words take; at most `length`
  Milliseconds motion{};  ///< how long checkers, dice and cube move; at most `length`

  [[nodiscard]] const std::string& words() const { return step->words; }
  [[nodiscard]] Milliseconds end() const { return begin + length; }
};

/// One set-up of the board and everything that is filmed of it before the board is set up anew: a
/// scene, or what follows a new set-up within one.
struct Shot {
  int number = 0;              ///< from 1, in the whole course
  std::string id;              ///< unique in the course, fit for a file's name
  std::size_t chapter_at = 0;  ///< which chapter of the course
  const Chapter* chapter = nullptr;
  const Scene* scene = nullptr;
  bool opens_scene = false;  ///< whether the scene starts with it; its claims belong to this shot
  Position start;
  BoardPicture opening;     ///< the board before anything happens
  std::vector<Beat> beats;  ///< one after another, without gaps, after the lead
  Milliseconds length{};

  [[nodiscard]] const Position& end() const { return beats.empty() ? start : beats.back().after; }
  /// What it is called: the caption, or the position in a few words.
  [[nodiscard]] std::string title() const;
};

/// How long moving things are in motion when nothing hurries them.
Milliseconds motion_time(const Step& step, const Position& before, const Position& after);

/// Lists the shots of a course. They point into `storyboard`, which has to outlive them. Fails as
/// `page_html` does, for a storyboard that does not come from the lesson compiler.
Result<std::vector<Shot>, PageFault> shots_of(const Storyboard& storyboard, const Pace& pace = {});

/// The length of all of them, one after another.
Milliseconds running_time(const std::vector<Shot>& shots);

/// "1:04", or "1:02:09" from an hour on; rounded to seconds.
std::string clock_text(Milliseconds time);

}  // namespace pointwright::film

#pragma once

#include <string>

#include "press/document.hpp"
#include "press/picture.hpp"
#include "rules/result.hpp"
#include "storyboard/storyboard.hpp"

/// What learners take home on paper.
namespace pointwright::press {

struct PrintOptions {
  Paper paper = Paper::a4;
  Theme theme = Theme::light;  ///< Theme::print: black and white
};

/// A course as a booklet: contents, chapters with boards, steps, what was proved, and exercises;
/// the answers at the end. Equal input gives equal bytes.
Result<std::string, PressFault> handout_pdf(const Storyboard& course, const PrintOptions& options);

/// Empty boards to draw on, two to a page. `names` are those of the sides.
Result<std::string, PressFault> blank_boards_pdf(const SideNames& names,
                                                 const PrintOptions& options);

}  // namespace pointwright::press

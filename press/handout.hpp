#pragma once

#include <optional>
#include <string>
#include <vector>

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

/// Pages of a document, counted from 1.
struct PageRange {
  int first = 0;
  int last = 0;
};

/// "page 3", "pages 3 to 5".
std::string pages_text(const PageRange& pages);

/// Where the handout has what.
struct HandoutPages {
  std::vector<PageRange> chapters;   ///< in their order
  std::optional<PageRange> answers;  ///< none without exercises
};

/// The pages of the handout that `handout_pdf` makes.
Result<HandoutPages, PressFault> handout_pages(const Storyboard& course,
                                               const PrintOptions& options);

/// Empty boards to draw on, two to a page. `names` are those of the sides.
Result<std::string, PressFault> blank_boards_pdf(const SideNames& names,
                                                 const PrintOptions& options);

}  // namespace pointwright::press

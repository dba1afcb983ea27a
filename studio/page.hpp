#pragma once

#include <string>

#include "rules/result.hpp"
#include "storyboard/storyboard.hpp"

namespace pointwright {

/// Why no page can be made of a storyboard: the place in it, and what is wrong there. A storyboard
/// of the lesson compiler never gives one; a JSON file that somebody has changed may.
struct PageFault {
  std::string where;   ///< "chapter the-board, board start, step 3"
  std::string reason;  ///< "point 25 is not on the board"
};

/// Makes one HTML file of a course: it opens from disk, fetches nothing, and stands under its own
/// content security policy. Without scripts everything can still be read. Every text of the
/// storyboard is escaped. Equal input gives equal bytes.
Result<std::string, PageFault> page_html(const Storyboard& storyboard);

}  // namespace pointwright

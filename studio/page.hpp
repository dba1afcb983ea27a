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

/// What makes a page live: files of web/, which a page carries in itself. The studio knows only how
/// to put them there.
struct LiveParts {
  std::string_view engine;  ///< WebAssembly, in binary
  /// The same, compressed (gzip): for a page that carries it.
  std::string_view packed_engine;
  std::string_view worker;  ///< script that runs the engine beside the page
  std::string_view script;  ///< script of the page
  std::string_view style;   ///< further CSS
};

struct Preview;

/// Makes one HTML file of a course: it opens from disk, fetches nothing, and stands under its own
/// content security policy. Without scripts everything can still be read. Every text of the
/// storyboard is escaped. Equal input gives equal bytes. With `live`, boards can be played on.
/// With `preview` (studio/preview.hpp) it is the page of a lesson that is being written, and asks
/// the address that it came from for news.
Result<std::string, PageFault> page_html(const Storyboard& storyboard,
                                         const LiveParts* live = nullptr,
                                         const Preview* preview = nullptr);

/// Makes one HTML file of a program for the browser, such as the table: a masthead, an empty main
/// part which its script fills, and the same policy. Without scripts it says what it needs.
std::string program_html(std::string_view title, const LiveParts& live);

}  // namespace pointwright

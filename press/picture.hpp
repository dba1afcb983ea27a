#pragma once

#include <string>

#include "rules/position.hpp"
#include "rules/result.hpp"
#include "studio/board_layout.hpp"
#include "studio/looks.hpp"

/// One board as a file of its own.
namespace pointwright::press {

/// Why something could not be painted: out of memory, or larger than the library takes.
struct PressFault {
  std::string reason;
};

struct PictureOptions {
  Theme theme = Theme::light;
  int width = 1440;    ///< in pixels; the height follows. 1 <= width <= widest_picture
  bool paper = false;  ///< false: what the board leaves free can be seen through
};

inline constexpr int widest_picture = 8192;

/// A board as PNG.
Result<std::string, PressFault> board_png(const Position& position, const BoardPicture& picture,
                                          const PictureOptions& options = {});

/// A board as one PDF page of its own size, 6 inches wide.
Result<std::string, PressFault> board_pdf(const Position& position, const BoardPicture& picture,
                                          Theme theme = Theme::light);

}  // namespace pointwright::press

#pragma once

#include <string>

#include "rules/position.hpp"
#include "studio/board_layout.hpp"
#include "studio/svg.hpp"

namespace pointwright {

struct DiagramOptions {
  View view;
  SideNames names;
  std::vector<Arrow> arrows;
  std::vector<Mark> marks;
  bool margins = true;             ///< names, turn, pip counts and score above and below the board
  std::optional<Side> offered_by;  ///< a cube on offer
  Theme theme = Theme::light;
  double width = 720;        ///< in CSS pixels; the height follows
  std::string caption;       ///< the title read out; empty: whose turn it is
  std::string id = "board";  ///< starts every id in the file, so that several can be embedded
};

/// Draws a position as one SVG document that stands alone: real text, a title and a spoken
/// description, no scripts, no inline style, nothing fetched. Points of view of arrows and marks
/// are those of their own side. Deterministic: equal input gives equal bytes.
std::string diagram_svg(const Position& position, const DiagramOptions& options = {});

}  // namespace pointwright

#pragma once

#include <optional>
#include <vector>

#include "rules/position.hpp"
#include "storyboard/storyboard.hpp"
#include "studio/drawing.hpp"

namespace pointwright {

/// Dice that lie on the board.
struct ThrownDice {
  Side side = Side::light;
  Roll roll;
};

/// What is drawn of a position, and how it is seen.
struct BoardPicture {
  View view;
  SideNames names;
  std::vector<Arrow> arrows;
  std::vector<Mark> marks;
  bool arrows_made = false;        ///< whether the position is the one after the arrows' moves
  std::optional<ThrownDice> dice;  ///< dice that still lie there; none: those of the position
  bool margins = true;  ///< whether names, turn, pip counts and score stand above and below
  std::optional<Side> offered_by;  ///< a cube on offer: drawn doubled on the board, on its way
};

/// Where things stand on the board, in frame units. All positions follow from a few sizes, so that
/// every output agrees with every other.
class BoardGeometry {
 public:
  static constexpr double width = 720;
  static constexpr double margin_height = 34;
  static constexpr double board_height = 520;
  static constexpr double checker_radius = 19;
  static constexpr double pitch = 44;  ///< from one point to the next
  static constexpr double bar_width = 52;
  static constexpr double shelf_width = 62;  ///< of the columns for the cube and the borne-off
  static constexpr double number_strip = 26;
  static constexpr double field_height = board_height - 2 * number_strip;
  static constexpr double point_height = 188;
  static constexpr int tallest_stack = 5;  ///< a taller one carries its count

  BoardGeometry(View view, bool margins) : view_(view), margins_(margins) {}

  [[nodiscard]] double height() const { return board_height + (margins_ ? 2 * margin_height : 0); }
  [[nodiscard]] double top() const { return margins_ ? margin_height : 0; }
  [[nodiscard]] double bottom() const { return top() + board_height; }
  [[nodiscard]] double field_top() const { return top() + number_strip; }
  [[nodiscard]] double field_bottom() const { return bottom() - number_strip; }
  [[nodiscard]] double middle() const { return (top() + bottom()) / 2; }
  [[nodiscard]] static double field_left() { return (width - 12 * pitch - bar_width) / 2; }
  [[nodiscard]] static double field_right() { return width - field_left(); }

  [[nodiscard]] bool is_bottom(Side side) const { return side == view_.bottom; }

  /// The column of a point, 0 to 11 from the left, and whether it hangs from the upper edge.
  /// Precondition: 1 <= point <= 24, as `side` counts.
  [[nodiscard]] int column(Side side, Place point) const;
  [[nodiscard]] bool on_top(Side side, Place point) const;

  /// The middle of a column.
  [[nodiscard]] static double column_x(int column);

  /// Where the `height`-th checker (from 0) of a side stands on a place: a point, the bar or the
  /// tray. Checkers above the tallest stack stand on its topmost place.
  [[nodiscard]] drawing::Spot checker(Side side, Place place, int height) const;

  /// The middle of the column in which checkers are borne off, or in which the cube lies.
  [[nodiscard]] double tray_x() const;
  [[nodiscard]] double cube_x() const;

 private:
  View view_;
  bool margins_;
};

/// The shapes of a figure, around its origin.
std::vector<drawing::Shape> figure_shapes(drawing::Figure figure);

/// What stays the same from position to position: frame, points, numbers. Depends on the view and
/// on whether there are margins, on nothing else.
drawing::Layer board_ground(const View& view, bool margins);

/// The whole picture: the ground and, above it, everything that the position and the picture say.
drawing::Frame board_frame(const Position& position, const BoardPicture& picture);

}  // namespace pointwright

#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "rules/board.hpp"

/// What a picture is made of, in plain values. A layout makes frames of these; a writer turns
/// frames into SVG, PDF or pixels. Nothing here knows of any of them.
///
/// Units are those of the frame: one checker is 38 wide. x grows to the right, y downwards.
namespace pointwright::drawing {

struct Spot {
  double x = 0;
  double y = 0;
  friend bool operator==(const Spot&, const Spot&) = default;
};

/// What a shape stands for. A writer decides on colour and stroke by role alone, so that a theme is
/// one table.
enum class Role {
  page,
  panel,
  frame_rule,
  inner_rule,
  field,
  bar,
  shelf,
  point_plain,
  point_hatched,
  hatching,
  number,
  side_name,
  side_status,
  side_note,
  checker_light,
  checker_light_ring,
  checker_dark,
  checker_dark_star,
  count_on_light,
  count_on_dark,
  slab_light,
  slab_dark,
  slab_dark_line,
  tray,
  tray_count,
  die_light,
  die_dark,
  pip_on_light,
  pip_on_dark,
  cube,
  cube_value,
  mark,
  mark_number_ground,
  mark_number,
  arrow_halo,
  arrow_line,
  arrow_head,
  refusal_line,
  refusal_disc,
  refusal_cross,
};
inline constexpr int role_count = static_cast<int>(Role::refusal_cross) + 1;

struct Disc {
  Spot centre;
  double radius = 0;
};

struct Box {
  Spot corner;  ///< upper left
  double width = 0;
  double height = 0;
  double rounding = 0;
};

/// One piece of a path. `line` and `move` use `to` alone, `curve` is a cubic with two controls.
struct Segment {
  enum class Kind { move, line, curve, close };
  Kind kind = Kind::move;
  Spot to;
  Spot control1;
  Spot control2;
};

struct Path {
  std::vector<Segment> segments;

  void move_to(Spot to) { segments.push_back({Segment::Kind::move, to, {}, {}}); }
  void line_to(Spot to) { segments.push_back({Segment::Kind::line, to, {}, {}}); }
  void curve_to(Spot control1, Spot control2, Spot to) {
    segments.push_back({Segment::Kind::curve, to, control1, control2});
  }
  void close() { segments.push_back({Segment::Kind::close, {}, {}, {}}); }
};

/// A line of text. `at` is on the baseline, at the place that `anchor` says.
struct Label {
  enum class Anchor { start, middle, end };
  Spot at;
  std::string text;
  double size = 0;
  Anchor anchor = Anchor::middle;
};

/// Small pictures that come up many times in a frame; `figure_shapes` says what they are made of.
enum class Figure { checker_light, checker_dark, slab_light, slab_dark };

/// A figure set down with its origin at `at`.
struct Stamp {
  Figure figure = Figure::checker_light;
  Spot at;
};

/// Which checker a shape stands for: the `height`-th from the bottom of its stack, from 0.
struct CheckerAt {
  Side side = Side::light;
  Place place = 0;
  int height = 0;
  friend bool operator==(const CheckerAt&, const CheckerAt&) = default;
};

struct Shape {
  Role role = Role::page;  ///< without meaning for a stamp, whose parts have their own
  std::variant<Disc, Box, Path, Label, Stamp> form;
  std::optional<CheckerAt> checker;
};

/// Shapes that belong together, in painting order.
struct Layer {
  enum class Kind { ground, margin, marks, checkers, dice, cube, arrows };
  Kind kind = Kind::ground;
  std::vector<Shape> shapes;
};

struct Frame {
  double width = 0;
  double height = 0;
  std::vector<Layer> layers;  ///< in painting order

  [[nodiscard]] const Layer* layer(Layer::Kind kind) const {
    for (const Layer& layer : layers) {
      if (layer.kind == kind) {
        return &layer;
      }
    }
    return nullptr;
  }
};

}  // namespace pointwright::drawing

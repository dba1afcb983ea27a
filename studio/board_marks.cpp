#include "studio/board_marks.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

namespace pointwright {

using namespace drawing;

namespace {

constexpr double mark_height = 5 * 40 + 5;
constexpr double head_length = 17;
constexpr double head_half_width = 9.5;
constexpr double refusal_radius = 13;

Spot operator+(Spot a, Spot b) {
  return {a.x + b.x, a.y + b.y};
}
Spot operator-(Spot a, Spot b) {
  return {a.x - b.x, a.y - b.y};
}
Spot operator*(double k, Spot a) {
  return {k * a.x, k * a.y};
}
double length(Spot a) {
  return std::hypot(a.x, a.y);
}

void mark_place(Layer& layer, const BoardGeometry& geometry, const BoardPicture& picture,
                Mark mark) {
  layer.shapes.push_back({Role::mark, place_box(geometry, mark.side, mark.place), {}});
  if (mark.place == bar_place || mark.place == off_place) {
    return;
  }
  const Spot spot = point_number_spot(geometry, mark.side, mark.place);
  layer.shapes.push_back(
      {Role::mark_number_ground, Box{{spot.x - 16, spot.y - 10.5}, 32, 21, 10.5}, {}});
  const Place number = mark.side == picture.view.numbering ? mark.place : mirrored(mark.place);
  layer.shapes.push_back(
      {Role::mark_number,
       Label{{spot.x, spot.y + 5.9}, std::to_string(number), 17, Label::Anchor::middle},
       {}});
}

struct Course {
  Spot from;
  Spot bend;  // the control of a quadratic curve
  Spot to;

  [[nodiscard]] Spot at(double t) const {
    return (1 - t) * (1 - t) * from + 2 * t * (1 - t) * bend + t * t * to;
  }
};

// Curves towards the middle of the board where an arrow stays on one side of it.
Course course(const BoardGeometry& geometry, Spot from, Spot to) {
  const Spot along = to - from;
  const double distance = length(along);
  const Spot half = from + 0.5 * along;
  const bool one_half = (from.y < geometry.middle()) == (to.y < geometry.middle());
  const double towards_middle = half.y < geometry.middle() ? 1 : -1;
  const double bulge = one_half ? std::min(0.28 * distance + 12, 92.0) : 0;
  Spot bend = half + Spot{0, towards_middle * bulge};
  if (!one_half && distance > 0) {
    bend = half + 0.10 * Spot{-along.y, along.x};
  }
  return {from, bend, to};
}

Path curve(const Course& course, double t_begin, double t_end) {
  // The part of a quadratic curve between two parameters, raised to a cubic.
  const Spot a = course.at(t_begin);
  const Spot b = course.at(t_end);
  const auto slope = [&](double t) {
    return 2 * (1 - t) * (course.bend - course.from) + 2 * t * (course.to - course.bend);
  };
  const double third = (t_end - t_begin) / 3;
  Path path;
  path.move_to(a);
  path.curve_to(a + third * slope(t_begin), b - third * slope(t_end), b);
  return path;
}

// The parameter at which the curve is `distance` away from its end.
double before_end(const Course& course, double distance) {
  double t = 1;
  while (t > 0.5 && length(course.at(t) - course.to) < distance) {
    t -= 0.005;
  }
  return t;
}

double after_start(const Course& course, double distance) {
  double t = 0;
  while (t < 0.4 && length(course.at(t) - course.from) < distance) {
    t += 0.005;
  }
  return t;
}

void draw_arrow(Layer& layer, const BoardGeometry& geometry, Spot from, Spot to, bool refused) {
  const Course line = course(geometry, from, to);
  const double start = after_start(line, 8);
  const double end = before_end(line, refused ? refusal_radius : head_length - 3);
  const Path path = curve(line, start, end);
  layer.shapes.push_back({Role::arrow_halo, path, {}});
  layer.shapes.push_back({refused ? Role::refusal_line : Role::arrow_line, path, {}});
  if (refused) {
    layer.shapes.push_back({Role::refusal_disc, Disc{to, refusal_radius}, {}});
    Path cross;
    const double reach = 5.2;
    cross.move_to(to + Spot{-reach, -reach});
    cross.line_to(to + Spot{reach, reach});
    cross.move_to(to + Spot{reach, -reach});
    cross.line_to(to + Spot{-reach, reach});
    layer.shapes.push_back({Role::refusal_cross, std::move(cross), {}});
    return;
  }
  const Spot base = line.at(before_end(line, head_length));
  const double reach = std::max(length(to - base), 1e-6);
  const Spot ahead = (1 / reach) * (to - base);
  const Spot across{-ahead.y, ahead.x};
  Path head;
  head.move_to(to);
  head.line_to(to - head_length * ahead + head_half_width * across);
  head.line_to(to - (head_length - 4) * ahead);
  head.line_to(to - head_length * ahead - head_half_width * across);
  head.close();
  layer.shapes.push_back({Role::arrow_head, std::move(head), {}});
}

// The height at which a checker lands: above its own side's checkers, on top of the others'.
int landing_height(const Board& board, Side side, Place place) {
  const int own = board.count(side, place);
  if (own > 0 || place == off_place || place == bar_place) {
    return own;
  }
  return std::max(0, board.count(opponent(side), mirrored(place)) - 1);
}

// The arrows' own checkers as they stood before; those they hit stay where they are now.
void take_back(Board& board, const std::vector<Arrow>& arrows) {
  for (auto arrow = arrows.rbegin(); arrow != arrows.rend(); ++arrow) {
    auto& camp = board.of(arrow->side);
    if (!arrow->refused && camp[arrow->to] > 0) {
      --camp[arrow->to];
      ++camp[arrow->from];
    }
  }
}

}  // namespace

Spot point_number_spot(const BoardGeometry& geometry, Side side, Place point) {
  const double half_strip = BoardGeometry::number_strip / 2;
  return {BoardGeometry::column_x(geometry.column(side, point)),
          geometry.on_top(side, point) ? geometry.field_top() - half_strip + 1
                                       : geometry.field_bottom() + half_strip - 1};
}

Box place_box(const BoardGeometry& geometry, Side side, Place place) {
  const auto around = [](double x, double top, double width, double height) {
    return Box{{x - width / 2, top}, width, height, 6};
  };
  if (place == bar_place || place == off_place) {
    const bool bar = place == bar_place;
    const bool upper = geometry.is_bottom(side) == bar;
    return around(bar ? BoardGeometry::width / 2 : geometry.tray_x(),
                  upper ? geometry.field_top() : geometry.middle() + 8,
                  bar ? BoardGeometry::bar_width - 6 : BoardGeometry::shelf_width - 2,
                  BoardGeometry::field_height / 2 - 8);
  }
  return around(BoardGeometry::column_x(geometry.column(side, place)),
                geometry.on_top(side, place) ? geometry.field_top() + 1
                                             : geometry.field_bottom() - mark_height - 1,
                BoardGeometry::pitch - 2, mark_height);
}

Layer mark_layer(const BoardGeometry& geometry, const BoardPicture& picture) {
  Layer layer{Layer::Kind::marks, {}};
  for (const Mark& mark : picture.marks) {
    mark_place(layer, geometry, picture, mark);
  }
  return layer;
}

Layer arrow_layer(const BoardGeometry& geometry, const Position& position,
                  const BoardPicture& picture) {
  Layer layer{Layer::Kind::arrows, {}};
  Layer refusals{Layer::Kind::arrows, {}};
  Board board = position.board;
  if (picture.arrows_made) {
    take_back(board, picture.arrows);
  }
  for (const Arrow& arrow : picture.arrows) {
    auto& camp = board.of(arrow.side);
    const Spot from = geometry.checker(arrow.side, arrow.from, std::max(0, camp[arrow.from] - 1));
    const Spot to =
        geometry.checker(arrow.side, arrow.to, landing_height(board, arrow.side, arrow.to));
    draw_arrow(arrow.refused ? refusals : layer, geometry, from, to, arrow.refused);
    if (!arrow.refused && camp[arrow.from] > 0) {
      --camp[arrow.from];
      ++camp[arrow.to];
    }
  }
  // A refusal must not be hidden by what is allowed.
  std::ranges::move(refusals.shapes, std::back_inserter(layer.shapes));
  return layer;
}

}  // namespace pointwright

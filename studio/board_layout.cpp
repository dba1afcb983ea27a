#include "studio/board_layout.hpp"

#include <algorithm>

#include "studio/board_marks.hpp"
#include "studio/wording.hpp"

namespace pointwright {

using namespace drawing;

namespace {

constexpr double field_edge = 3;  // between a stack and the edge that it stands on
constexpr double bar_gap = 26;    // from the middle to the first checker on the bar
constexpr double slab_width = 44;
constexpr double slab_height = 9.6;
constexpr double slab_pitch = 11.2;
constexpr double tray_inset = 6;
constexpr double cube_size = 42;
constexpr double die_size = 34;
constexpr double number_size = 17;
constexpr double count_size = 20;
// A baseline lies this share of the type size below the middle of its numerals.
constexpr double middle_to_baseline = 0.345;

Shape box(Role role, Spot corner, double width, double height, double rounding = 0) {
  return {role, Box{corner, width, height, rounding}, {}};
}

Shape box_around(Role role, Spot centre, double width, double height, double rounding) {
  return box(role, {centre.x - width / 2, centre.y - height / 2}, width, height, rounding);
}

Shape label(Role role, Spot middle, std::string text, double size,
            Label::Anchor anchor = Label::Anchor::middle) {
  return {role,
          Label{{middle.x, middle.y + middle_to_baseline * size}, std::move(text), size, anchor},
          {}};
}

// The outline of a point is a lancet, like the blade of a paper knife. Half its width at a height
// above its base follows from the same cubic; the hatching needs it.
constexpr double lancet_half_width = 20;
constexpr Spot lancet_control1{20, 92};
constexpr Spot lancet_control2{5, 150};

Spot lancet_edge(double t) {
  const double u = 1 - t;
  const double height = BoardGeometry::point_height;
  return {
      u * u * u * lancet_half_width + 3 * u * u * t * lancet_control1.x +
          3 * u * t * t * lancet_control2.x,
      3 * u * u * t * lancet_control1.y + 3 * u * t * t * lancet_control2.y + t * t * t * height};
}

// The height at which a lancet is `half_width` to one side. Its width falls steadily with t.
double lancet_height(double half_width) {
  double low = 0;
  double high = 1;
  for (int i = 0; i < 40; ++i) {
    const double t = (low + high) / 2;
    (lancet_edge(t).x > half_width ? low : high) = t;
  }
  return lancet_edge(low).y;
}

Path lancet(double x, double base, double up) {
  const auto spot = [&](double dx, double dy) { return Spot{x + dx, base + up * dy}; };
  const double height = BoardGeometry::point_height;
  Path path;
  path.move_to(spot(-lancet_half_width, 0));
  path.curve_to(spot(-lancet_control1.x, lancet_control1.y),
                spot(-lancet_control2.x, lancet_control2.y), spot(0, height));
  path.curve_to(spot(lancet_control2.x, lancet_control2.y),
                spot(lancet_control1.x, lancet_control1.y), spot(lancet_half_width, 0));
  path.close();
  return path;
}

// Upright lines inside a lancet, as an engraver would shade it.
void hatch(Path& path, double x, double base, double up) {
  for (const int dx : {-16, -12, -8, -4, 0, 4, 8, 12, 16}) {
    const double height = lancet_height(std::abs(dx)) - 2;
    path.move_to({x + dx, base});
    path.line_to({x + dx, base + up * height});
  }
}

Path star(double reach, double waist) {
  Path path;
  path.move_to({0, -reach});
  for (const Spot corner : {Spot{1, 0}, Spot{0, 1}, Spot{-1, 0}, Spot{0, -1}}) {
    const Spot before{corner.y, -corner.x};  // the tip that comes a quarter turn earlier
    const Spot inner{(corner.x + before.x) * waist, (corner.y + before.y) * waist};
    path.line_to(inner);
    path.line_to({corner.x * reach, corner.y * reach});
  }
  path.close();
  return path;
}

// What is being laid out, and the frame that grows.
struct Drawing {
  const Position& position;
  const BoardPicture& picture;
  BoardGeometry geometry;
  Frame frame;

  Layer& layer(Layer::Kind kind) { return frame.layers.emplace_back(Layer{kind, {}}); }
};

void draw_margins(Drawing& drawing) {
  if (!drawing.picture.margins) {
    return;
  }
  Layer& layer = drawing.layer(Layer::Kind::margin);
  const double inset = 8;
  for (const Side side : {Side::light, Side::dark}) {
    const bool bottom = drawing.geometry.is_bottom(side);
    const double y = bottom ? drawing.geometry.bottom() + BoardGeometry::margin_height / 2 + 2
                            : BoardGeometry::margin_height / 2 - 2;
    const bool light = side == Side::light;
    layer.shapes.push_back(
        {light ? Role::checker_light : Role::checker_dark, Disc{{inset + 8, y}, 8}, {}});
    layer.shapes.push_back({light ? Role::checker_light_ring : Role::checker_dark_star,
                            Disc{{inset + 8, y}, light ? 4.5 : 2.5},
                            {}});
    layer.shapes.push_back(label(Role::side_name, {inset + 24, y},
                                 shortened(drawing.picture.names[side]), 18, Label::Anchor::start));
    layer.shapes.push_back(label(Role::side_status, {BoardGeometry::width / 2, y},
                                 turn_words(drawing.position, side), 17));
    const std::string tally = drawing.picture.view.bare ? score_words(drawing.position, side)
                                                        : tally_words(drawing.position, side);
    layer.shapes.push_back(
        label(Role::side_note, {BoardGeometry::width - inset, y}, tally, 17, Label::Anchor::end));
    std::erase_if(layer.shapes, [](const Shape& shape) {
      const auto* words = std::get_if<Label>(&shape.form);
      return words != nullptr && words->text.empty();
    });
  }
}

void draw_stack(Drawing& drawing, Layer& layer, Side side, Place place, int count) {
  const bool light = side == Side::light;
  const int shown = std::min(count, BoardGeometry::tallest_stack);
  for (int i = 0; i < shown; ++i) {
    layer.shapes.push_back({Role::page,
                            Stamp{light ? Figure::checker_light : Figure::checker_dark,
                                  drawing.geometry.checker(side, place, i)},
                            CheckerAt{side, place, i}});
  }
  if (count > shown) {
    const Spot top = drawing.geometry.checker(side, place, shown - 1);
    layer.shapes.push_back({light ? Role::checker_light : Role::checker_dark, Disc{top, 13}, {}});
    layer.shapes.push_back(label(light ? Role::count_on_light : Role::count_on_dark, top,
                                 std::to_string(count), count_size));
  }
}

void draw_tray(Drawing& drawing, Layer& layer, Side side, int count) {
  const bool light = side == Side::light;
  for (int i = 0; i < count; ++i) {
    layer.shapes.push_back({Role::page,
                            Stamp{light ? Figure::slab_light : Figure::slab_dark,
                                  drawing.geometry.checker(side, off_place, i)},
                            CheckerAt{side, off_place, i}});
  }
  if (count > 0) {
    const Spot top = drawing.geometry.checker(side, off_place, count - 1);
    const double up = drawing.geometry.is_bottom(side) ? -1 : 1;
    layer.shapes.push_back(
        label(Role::tray_count, {top.x, top.y + up * 20}, std::to_string(count), count_size));
  }
}

void draw_checkers(Drawing& drawing) {
  Layer& layer = drawing.layer(Layer::Kind::checkers);
  for (const Side side : {Side::light, Side::dark}) {
    for (Place place = 1; place <= bar_place; ++place) {
      draw_stack(drawing, layer, side, place, drawing.position.board.count(side, place));
    }
    if (!drawing.picture.view.bare) {
      draw_tray(drawing, layer, side, drawing.position.board.count(side, off_place));
    }
  }
}

// The middle of the half board to the right of a side, as it sits at the board: there it throws.
double throwing_x(const BoardGeometry& geometry, Side side) {
  const double half = 6 * BoardGeometry::pitch;
  return geometry.is_bottom(side) ? BoardGeometry::field_right() - half / 2
                                  : BoardGeometry::field_left() + half / 2;
}

void draw_die(Layer& layer, Side side, Spot centre, int face) {
  const bool light = side == Side::light;
  layer.shapes.push_back(
      box_around(light ? Role::die_light : Role::die_dark, centre, die_size, die_size, 7));
  const double reach = 9.5;
  const auto pip = [&](double dx, double dy) {
    layer.shapes.push_back({light ? Role::pip_on_light : Role::pip_on_dark,
                            Disc{{centre.x + dx * reach, centre.y + dy * reach}, 3.2},
                            {}});
  };
  if (face % 2 == 1) {
    pip(0, 0);
  }
  if (face >= 2) {
    pip(-1, 1);
    pip(1, -1);
  }
  if (face >= 4) {
    pip(-1, -1);
    pip(1, 1);
  }
  if (face == 6) {
    pip(-1, 0);
    pip(1, 0);
  }
}

void draw_dice(Drawing& drawing) {
  Layer& layer = drawing.layer(Layer::Kind::dice);
  std::optional<ThrownDice> dice = drawing.picture.dice;
  if (!dice && drawing.position.turn && drawing.position.roll) {
    dice = ThrownDice{*drawing.position.turn, *drawing.position.roll};
  }
  if (!dice) {
    return;
  }
  const Spot middle{throwing_x(drawing.geometry, dice->side), drawing.geometry.middle()};
  const double apart = die_size / 2 + 6;
  draw_die(layer, dice->side, {middle.x - apart, middle.y}, dice->roll.high());
  draw_die(layer, dice->side, {middle.x + apart, middle.y}, dice->roll.low());
}

void draw_cube(Drawing& drawing) {
  Layer& layer = drawing.layer(Layer::Kind::cube);
  if (!drawing.position.house.cube) {
    return;
  }
  const Cube& cube = drawing.position.cube;
  std::uint64_t value = cube.value;
  Spot centre{drawing.geometry.cube_x(), drawing.geometry.middle()};
  if (drawing.picture.offered_by) {
    centre.x = throwing_x(drawing.geometry, *drawing.picture.offered_by);
    value *= 2;
  } else if (cube.holder) {
    const double inset = tray_inset + cube_size / 2;
    centre.y = drawing.geometry.is_bottom(*cube.holder) ? drawing.geometry.field_bottom() - inset
                                                        : drawing.geometry.field_top() + inset;
  }
  layer.shapes.push_back(box_around(Role::cube, centre, cube_size, cube_size, 6));
  const CubeFace face = cube_face(value);
  layer.shapes.push_back(label(Role::cube_value, centre, face.text, face.size));
}

}  // namespace

int BoardGeometry::column(Side side, Place point) const {
  const int count = is_bottom(side) ? point : mirrored(point);
  const int from_right = count <= 12 ? count - 1 : 24 - count;
  return view_.home_on_left ? from_right : 11 - from_right;
}

bool BoardGeometry::on_top(Side side, Place point) const {
  return (is_bottom(side) ? point : mirrored(point)) > 12;
}

double BoardGeometry::column_x(int column) {
  return field_left() + pitch * (column + 0.5) + (column >= 6 ? bar_width : 0);
}

double BoardGeometry::tray_x() const {
  return view_.home_on_left ? field_left() / 2 : width - field_left() / 2;
}

double BoardGeometry::cube_x() const {
  return width - tray_x();
}

Spot BoardGeometry::checker(Side side, Place place, int height) const {
  const int capped = std::min(height, tallest_stack - 1);
  const double step = 2 * checker_radius + 2;
  if (place == bar_place) {
    // A checker on the bar waits beside the quarter that it enters, the other side's home.
    const double up = is_bottom(side) ? -1 : 1;
    return {width / 2, middle() + up * (bar_gap + step * capped)};
  }
  if (place == off_place) {
    const double inset = tray_inset + slab_height / 2 + slab_pitch * height;
    return {tray_x(), is_bottom(side) ? field_bottom() - inset : field_top() + inset};
  }
  const double inset = field_edge + checker_radius + step * capped;
  return {column_x(column(side, place)),
          on_top(side, place) ? field_top() + inset : field_bottom() - inset};
}

std::vector<Shape> figure_shapes(Figure figure) {
  const Spot origin;
  switch (figure) {
    case Figure::checker_light:
      return {{Role::checker_light, Disc{origin, BoardGeometry::checker_radius}, {}},
              {Role::checker_light_ring, Disc{origin, 12.5}, {}}};
    case Figure::checker_dark:
      return {{Role::checker_dark, Disc{origin, BoardGeometry::checker_radius}, {}},
              {Role::checker_dark_star, star(10, 3.1), {}}};
    case Figure::slab_light:
      return {box_around(Role::slab_light, origin, slab_width, slab_height, 2)};
    case Figure::slab_dark: {
      Path line;
      line.move_to({-slab_width / 2 + 6, 0});
      line.line_to({slab_width / 2 - 6, 0});
      return {box_around(Role::slab_dark, origin, slab_width, slab_height, 2),
              {Role::slab_dark_line, line, {}}};
    }
  }
  return {};
}

Layer board_ground(const View& view, bool margins) {
  const BoardGeometry geometry(view, margins);
  const double top = geometry.top();
  const double field_top = geometry.field_top();
  const double field_height = BoardGeometry::field_height;
  const double left = BoardGeometry::field_left();
  const double half = 6 * BoardGeometry::pitch;
  const double right_half = left + half + BoardGeometry::bar_width;

  Layer layer{Layer::Kind::ground, {}};
  auto& shapes = layer.shapes;
  shapes.push_back(
      box(Role::panel, {2, top + 2}, BoardGeometry::width - 4, BoardGeometry::board_height - 4, 4));
  for (const double x : {geometry.tray_x(), geometry.cube_x()}) {
    shapes.push_back(box(Role::shelf, {x - BoardGeometry::shelf_width / 2 + 2, field_top},
                         BoardGeometry::shelf_width - 4, field_height));
  }
  shapes.push_back(
      box(Role::bar, {left + half, field_top}, BoardGeometry::bar_width, field_height));
  shapes.push_back(box(Role::field, {left, field_top}, half, field_height));
  shapes.push_back(box(Role::field, {right_half, field_top}, half, field_height));

  Path hatching;
  for (Place point = 1; point <= 24; ++point) {
    const int column = geometry.column(view.bottom, point);
    const bool on_top = geometry.on_top(view.bottom, point);
    const double x = BoardGeometry::column_x(column);
    const double base = on_top ? field_top : geometry.field_bottom();
    const double up = on_top ? 1 : -1;
    const bool hatched = (column + (on_top ? 1 : 0)) % 2 == 0;
    shapes.push_back({hatched ? Role::point_hatched : Role::point_plain, lancet(x, base, up), {}});
    if (hatched) {
      hatch(hatching, x, base, up);
    }
    const Place number = view.numbering == view.bottom ? point : mirrored(point);
    shapes.push_back(label(Role::number, point_number_spot(geometry, view.bottom, point),
                           std::to_string(number), number_size));
  }
  shapes.push_back({Role::hatching, std::move(hatching), {}});

  for (const double x : {left, right_half}) {
    shapes.push_back(box(Role::inner_rule, {x, field_top}, half, field_height));
  }
  for (const bool bottom : {false, true}) {
    shapes.push_back(box(Role::tray,
                         {geometry.tray_x() - BoardGeometry::shelf_width / 2 + 2,
                          bottom ? geometry.middle() + 8 : field_top},
                         BoardGeometry::shelf_width - 4, field_height / 2 - 8));
  }
  shapes.push_back(box(Role::frame_rule, {2, top + 2}, BoardGeometry::width - 4,
                       BoardGeometry::board_height - 4, 4));
  return layer;
}

Frame board_frame(const Position& position, const BoardPicture& picture) {
  Drawing drawing{position, picture, BoardGeometry(picture.view, picture.margins), {}};
  drawing.frame.width = BoardGeometry::width;
  drawing.frame.height = drawing.geometry.height();
  drawing.frame.layers.push_back(board_ground(picture.view, picture.margins));
  draw_margins(drawing);
  drawing.frame.layers.push_back(mark_layer(drawing.geometry, picture));
  draw_checkers(drawing);
  draw_dice(drawing);
  draw_cube(drawing);
  drawing.frame.layers.push_back(arrow_layer(drawing.geometry, position, picture));
  return std::move(drawing.frame);
}

}  // namespace pointwright

#include "press/painter.hpp"

#include <array>
#include <numbers>

#include "press/cairo.hpp"
#include "studio/board_layout.hpp"

namespace pointwright::press {

using namespace drawing;

namespace {

constexpr double quarter = std::numbers::pi / 2;
constexpr double miter_limit = 4;  // as in SVG, so that sharp corners look alike

void rounded_box(cairo_t* context, const Box& box) {
  if (box.rounding <= 0) {
    cairo_rectangle(context, box.corner.x, box.corner.y, box.width, box.height);
    return;
  }
  const double r = box.rounding;
  const double left = box.corner.x;
  const double top = box.corner.y;
  const double right = left + box.width;
  const double bottom = top + box.height;
  cairo_new_sub_path(context);
  cairo_arc(context, right - r, top + r, r, -quarter, 0);
  cairo_arc(context, right - r, bottom - r, r, 0, quarter);
  cairo_arc(context, left + r, bottom - r, r, quarter, 2 * quarter);
  cairo_arc(context, left + r, top + r, r, 2 * quarter, 3 * quarter);
  cairo_close_path(context);
}

void outline(cairo_t* context, const Path& path) {
  for (const Segment& segment : path.segments) {
    switch (segment.kind) {
      case Segment::Kind::move:
        cairo_move_to(context, segment.to.x, segment.to.y);
        break;
      case Segment::Kind::line:
        cairo_line_to(context, segment.to.x, segment.to.y);
        break;
      case Segment::Kind::curve:
        cairo_curve_to(context, segment.control1.x, segment.control1.y, segment.control2.x,
                       segment.control2.y, segment.to.x, segment.to.y);
        break;
      case Segment::Kind::close:
        cairo_close_path(context);
        break;
    }
  }
}

void set_stroke(cairo_t* context, const Look& look) {
  cairo_set_line_width(context, look.width);
  cairo_set_miter_limit(context, miter_limit);
  const bool round = look.dress == Dress::round_ends || look.dress == Dress::broken;
  cairo_set_line_cap(context, round ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join(
      context, look.dress == Dress::round_ends ? CAIRO_LINE_JOIN_ROUND : CAIRO_LINE_JOIN_MITER);
  static constexpr std::array<double, 2> dashes{7, 8};
  const bool broken = look.dress == Dress::broken;
  cairo_set_dash(context, dashes.data(), broken ? 2 : 0, 0);
}

// Fills and strokes the current path, and forgets it.
void ink(cairo_t* context, const Look& look, Theme theme) {
  if (look.fill != Tint::none) {
    use_tint(context, look.fill, theme);
    cairo_fill_preserve(context);
  }
  if (look.stroke != Tint::none) {
    set_stroke(context, look);
    use_tint(context, look.stroke, theme);
    cairo_stroke_preserve(context);
  }
  cairo_new_path(context);
}

void letter(cairo_t* context, const Label& label, const Look& look, Theme theme,
            Lettering lettering) {
  const LayoutOwner layout = make_layout(
      context, label.size, look.dress == Dress::bold ? PANGO_WEIGHT_SEMIBOLD : PANGO_WEIGHT_NORMAL,
      look.dress == Dress::italic ? PANGO_STYLE_ITALIC : PANGO_STYLE_NORMAL);
  pango_layout_set_single_paragraph_mode(layout.get(), TRUE);
  pango_layout_set_text(layout.get(), label.text.data(), static_cast<int>(label.text.size()));
  PangoLayoutLine* line = pango_layout_get_line_readonly(layout.get(), 0);
  PangoRectangle extents;
  pango_layout_line_get_extents(line, nullptr, &extents);
  const double width = static_cast<double>(extents.width) / PANGO_SCALE;
  const double shift = label.anchor == Label::Anchor::start    ? 0
                       : label.anchor == Label::Anchor::middle ? width / 2
                                                               : width;
  use_tint(context, look.fill, theme);
  cairo_move_to(context, label.at.x - shift, label.at.y);
  if (lettering == Lettering::text) {
    pango_cairo_show_layout_line(context, line);
  } else {
    pango_cairo_layout_line_path(context, line);
    cairo_fill(context);
  }
  cairo_new_path(context);
}

struct ShapePainter {
  cairo_t* context;
  const PaintStyle& style;
  Role role;

  void operator()(const Disc& disc) const {
    cairo_new_sub_path(context);
    cairo_arc(context, disc.centre.x, disc.centre.y, disc.radius, 0, 4 * quarter);
    cairo_close_path(context);
    ink(context, look_of(role), style.theme);
  }
  void operator()(const Box& box) const {
    rounded_box(context, box);
    ink(context, look_of(role), style.theme);
  }
  void operator()(const Path& path) const {
    outline(context, path);
    ink(context, look_of(role), style.theme);
  }
  void operator()(const Label& label) const {
    const bool margin =
        role == Role::side_name || role == Role::side_status || role == Role::side_note;
    letter(context, label, look_of(role), style.theme, margin ? style.margins : style.board);
  }
  void operator()(const Stamp& stamp) const {
    cairo_save(context);
    cairo_translate(context, stamp.at.x, stamp.at.y);
    for (const Shape& part : figure_shapes(stamp.figure)) {
      paint(context, part, style);
    }
    cairo_restore(context);
  }
};

double channel(std::string_view colour, std::size_t at) {
  const auto digit = [&](std::size_t i) {
    const char c = colour[i];
    return c <= '9' ? c - '0' : c - 'a' + 10;
  };
  return (digit(at) * 16 + digit(at + 1)) / 255.0;
}

}  // namespace

void use_tint(cairo_t* context, Tint tint, Theme theme) {
  const std::string_view hex = colour(tint, theme);
  cairo_set_source_rgb(context, channel(hex, 1), channel(hex, 3), channel(hex, 5));
}

void paint(cairo_t* context, const Shape& shape, const PaintStyle& style) {
  std::visit(ShapePainter{context, style, shape.role}, shape.form);
}

void paint(cairo_t* context, const Layer& layer, const PaintStyle& style) {
  for (const Shape& shape : layer.shapes) {
    paint(context, shape, style);
  }
}

void paint(cairo_t* context, const Frame& frame, const PaintStyle& style) {
  for (const Layer& layer : frame.layers) {
    paint(context, layer, style);
  }
}

}  // namespace pointwright::press

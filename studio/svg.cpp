#include "studio/svg.hpp"

#include <fmt/format.h>

#include <cmath>

#include "studio/board_layout.hpp"

namespace pointwright {

using namespace drawing;

namespace {

constexpr std::array<std::string_view, 4> figure_names{"light-checker", "dark-checker",
                                                       "light-slab", "dark-slab"};

// The attributes of a dress, each NAME="VALUE" after a space.
std::string_view dress_attributes(Dress dress) {
  switch (dress) {
    case Dress::plain:
      break;
    case Dress::round_ends:
      return R"( stroke-linecap="round" stroke-linejoin="round")";
    case Dress::broken:
      return R"( stroke-dasharray="7 8" stroke-linecap="round")";
    case Dress::bold:
      return R"( font-weight="600")";
    case Dress::italic:
      return R"( font-style="italic")";
  }
  return {};
}

std::string_view figure_name(Figure figure) {
  return figure_names[static_cast<std::size_t>(figure)];
}

// The attributes that every shape of a role has: its class and, where asked for, its colours.
std::string role_attributes(Role role, const SvgStyle& style) {
  const Look& look = look_of(role);
  std::string text = fmt::format(" class=\"pw-{}\"", look.name);
  if (!style.colours) {
    return text;
  }
  text += fmt::format(" fill=\"{}\"", colour(look.fill, style.theme));
  if (look.stroke != Tint::none) {
    text += fmt::format(R"( stroke="{}" stroke-width="{}")", colour(look.stroke, style.theme),
                        look.width);
  }
  text += dress_attributes(look.dress);
  return text;
}

std::string spot(Spot at) {
  return svg_number(at.x) + " " + svg_number(at.y);
}

std::string path_data(const Path& path) {
  std::string data;
  for (const Segment& segment : path.segments) {
    switch (segment.kind) {
      case Segment::Kind::move:
        data += "M" + spot(segment.to);
        break;
      case Segment::Kind::line:
        data += "L" + spot(segment.to);
        break;
      case Segment::Kind::curve:
        data +=
            "C" + spot(segment.control1) + " " + spot(segment.control2) + " " + spot(segment.to);
        break;
      case Segment::Kind::close:
        data += "Z";
        break;
    }
  }
  return data;
}

std::string_view anchor_word(Label::Anchor anchor) {
  switch (anchor) {
    case Label::Anchor::start:
      return "start";
    case Label::Anchor::middle:
      return "middle";
    case Label::Anchor::end:
      break;
  }
  return "end";
}

struct ShapeWriter {
  std::string& out;
  const SvgStyle& style;
  Role role;
  const std::optional<CheckerAt>& checker;

  void operator()(const Disc& disc) const {
    out +=
        fmt::format(R"(<circle{} cx="{}" cy="{}" r="{}"/>)", role_attributes(role, style),
                    svg_number(disc.centre.x), svg_number(disc.centre.y), svg_number(disc.radius));
  }
  void operator()(const Box& box) const {
    out += fmt::format(R"(<rect{} x="{}" y="{}" width="{}" height="{}")",
                       role_attributes(role, style), svg_number(box.corner.x),
                       svg_number(box.corner.y), svg_number(box.width), svg_number(box.height));
    out += box.rounding > 0 ? fmt::format(" rx=\"{}\"/>", svg_number(box.rounding)) : "/>";
  }
  void operator()(const Path& path) const {
    out += fmt::format("<path{} d=\"{}\"/>", role_attributes(role, style), path_data(path));
  }
  void operator()(const Label& label) const {
    out += fmt::format(R"(<text{} x="{}" y="{}" font-size="{}" text-anchor="{}">{}</text>)",
                       role_attributes(role, style), svg_number(label.at.x), svg_number(label.at.y),
                       svg_number(label.size), anchor_word(label.anchor), escaped(label.text));
  }
  void operator()(const Stamp& stamp) const {
    out += fmt::format(R"(<use href="#{}-{}" x="{}" y="{}")", style.prefix,
                       figure_name(stamp.figure), svg_number(stamp.at.x), svg_number(stamp.at.y));
    if (style.names_checkers && checker) {
      out += fmt::format(R"( data-at="{} {}")", name(checker->side), to_text(checker->place));
    }
    out += "/>";
  }
};

void write_shape(std::string& out, const Shape& shape, const SvgStyle& style) {
  std::visit(ShapeWriter{out, style, shape.role, shape.checker}, shape.form);
}

std::string_view layer_name(Layer::Kind kind) {
  static constexpr std::array<std::string_view, 7> names{"ground", "margin", "marks", "checkers",
                                                         "dice",   "cube",   "arrows"};
  return names[static_cast<std::size_t>(kind)];
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        if (static_cast<unsigned char>(c) >= 0x20 || c == '\n' || c == '\t') {
          out += c;
        }
    }
  }
  return out;
}

std::string svg_number(double value) {
  const auto tenths = std::llround(value * 10);
  std::string text = fmt::format("{}{}", tenths < 0 ? "-" : "", std::llabs(tenths) / 10);
  if (tenths % 10 != 0) {
    text += fmt::format(".{}", std::llabs(tenths) % 10);
  }
  return text;
}

void write_layer(std::string& out, const Layer& layer, const SvgStyle& style) {
  if (layer.shapes.empty()) {
    return;
  }
  out += fmt::format("<g class=\"pw-layer-{}\">", layer_name(layer.kind));
  for (const Shape& shape : layer.shapes) {
    write_shape(out, shape, style);
  }
  out += "</g>\n";
}

void write_figures(std::string& out, const SvgStyle& style) {
  for (const Figure figure :
       {Figure::checker_light, Figure::checker_dark, Figure::slab_light, Figure::slab_dark}) {
    out += fmt::format("<g id=\"{}-{}\">", style.prefix, figure_name(figure));
    for (const Shape& shape : figure_shapes(figure)) {
      write_shape(out, shape, style);
    }
    out += "</g>\n";
  }
}

std::string drawing_css() {
  std::string css;
  for (int i = 0; i < role_count; ++i) {
    const Look& look = look_of(static_cast<Role>(i));
    css += fmt::format(
        ".pw-{}{{fill:{}", look.name,
        look.fill == Tint::none ? "none" : fmt::format("var(--pw-{})", tint_name(look.fill)));
    if (look.stroke != Tint::none) {
      css +=
          fmt::format(";stroke:var(--pw-{});stroke-width:{}", tint_name(look.stroke), look.width);
    }
    // The attributes are CSS declarations of the same names.
    std::string_view rest = dress_attributes(look.dress);
    while (!rest.empty()) {
      const std::size_t equals = rest.find('=');
      const std::size_t end = rest.find('"', equals + 2);
      css += fmt::format(";{}:{}", rest.substr(1, equals - 1),
                         rest.substr(equals + 2, end - equals - 2));
      rest.remove_prefix(end + 1);
    }
    css += "}\n";
  }
  return css;
}

std::string theme_css(Theme theme) {
  std::string css;
  for (int i = 0; i < tint_count; ++i) {
    const auto tint = static_cast<Tint>(i);
    if (tint != Tint::none) {
      css += fmt::format("--pw-{}:{};", tint_name(tint), colour(tint, theme));
    }
  }
  return css;
}

std::string themes_css() {
  const std::string light = theme_css(Theme::light);
  const std::string dark = theme_css(Theme::dark);
  return fmt::format(
      ":root{{{}color-scheme:light}}\n"
      "@media "
      "(prefers-color-scheme:dark){{:root:not([data-theme=light]){{{}color-scheme:dark"
      "}}}}\n:root[data-theme=dark]{{{}color-scheme:dark}}\n"
      "@media print{{:root:root:root{{{}color-scheme:light}}}}\n",
      light, dark, dark, theme_css(Theme::print));
}

std::string_view drawing_fonts() {
  return "Palatino, 'Palatino Linotype', Georgia, serif";
}

}  // namespace pointwright

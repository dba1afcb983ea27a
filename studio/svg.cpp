#include "studio/svg.hpp"

#include <fmt/format.h>

#include <cmath>

#include "studio/board_layout.hpp"

namespace pointwright {

using namespace drawing;

namespace {

// The colours of a picture by what they are for. Checkers differ in lightness and in their inner
// mark, points in hatching, arrows and refusals in their ends: no meaning hangs on hue alone.
enum class Tint {
  none,
  paper,
  panel,
  field,
  bar,
  sand,
  sage,
  engraving,
  ink,
  soft_ink,
  ivory,
  ivory_line,
  ebony,
  ebony_line,
  ebony_mark,
  allowed,
  refused,
  pointer,
  on_accent,
};
constexpr int tint_count = static_cast<int>(Tint::on_accent) + 1;

struct TintEntry {
  std::string_view name;
  std::array<std::string_view, 3> colours;  // by Theme
};

constexpr std::array<TintEntry, tint_count> tints{{
    {"none", {"none", "none", "none"}},
    {"paper", {"#fdfaf2", "#191c20", "#ffffff"}},
    {"panel", {"#eee4cf", "#23272c", "#ffffff"}},
    {"field", {"#f8f2e3", "#1e2226", "#ffffff"}},
    {"bar", {"#e6dabf", "#2a2f35", "#eeeeee"}},
    {"sand", {"#dcc7a0", "#4a4338", "#f4f4f4"}},
    {"sage", {"#e3e8dd", "#26302f", "#ffffff"}},
    {"engraving", {"#7f9a8c", "#56776d", "#606060"}},
    {"ink", {"#2c2620", "#ece5d6", "#000000"}},
    {"soft-ink", {"#5d5344", "#b9b09d", "#333333"}},
    {"ivory", {"#fffdf6", "#f1e9d8", "#ffffff"}},
    {"ivory-line", {"#3a3128", "#2a241d", "#000000"}},
    {"ebony", {"#2f2b36", "#0e0f12", "#1a1a1a"}},
    {"ebony-line", {"#18151d", "#cfc5b2", "#000000"}},
    {"ebony-mark", {"#f3e7cb", "#e2d6bd", "#ffffff"}},
    {"allowed", {"#0b6a66", "#5fd0c2", "#000000"}},
    {"refused", {"#a92b1d", "#ff9180", "#000000"}},
    {"pointer", {"#8a4b08", "#f0b35b", "#000000"}},
    {"on-accent", {"#ffffff", "#14171a", "#ffffff"}},
}};

constexpr std::string_view unadorned;

struct RoleEntry {
  std::string_view name;
  Tint fill = Tint::none;
  Tint stroke = Tint::none;
  double width = 0;
  std::string_view more = unadorned;  // further attributes, the same in every theme
};

constexpr std::string_view round_ends = R"( stroke-linecap="round" stroke-linejoin="round")";
constexpr std::string_view broken = R"( stroke-dasharray="7 8" stroke-linecap="round")";
constexpr std::string_view upright_bold = R"( font-weight="600")";
constexpr std::string_view italic = R"( font-style="italic")";

constexpr std::array<RoleEntry, role_count> roles{{
    {"page", Tint::paper},
    {"panel", Tint::panel},
    {"frame", Tint::none, Tint::ink, 2.5},
    {"rule", Tint::none, Tint::ink, 1},
    {"field", Tint::field},
    {"bar", Tint::bar},
    {"shelf", Tint::bar},
    {"plain", Tint::sand, Tint::soft_ink, 0.8},
    {"hatched", Tint::sage, Tint::soft_ink, 0.8},
    {"hatching", Tint::none, Tint::engraving, 1.3},
    {"number", Tint::soft_ink},
    {"name", Tint::ink, Tint::none, 0, upright_bold},
    {"status", Tint::ink, Tint::none, 0, italic},
    {"note", Tint::soft_ink},
    {"light", Tint::ivory, Tint::ivory_line, 1.6},
    {"light-ring", Tint::none, Tint::ivory_line, 1},
    {"dark", Tint::ebony, Tint::ebony_line, 1.6},
    {"dark-star", Tint::ebony_mark},
    {"light-count", Tint::ivory_line, Tint::none, 0, upright_bold},
    {"dark-count", Tint::ebony_mark, Tint::none, 0, upright_bold},
    {"light-slab", Tint::ivory, Tint::ivory_line, 1.2},
    {"dark-slab", Tint::ebony, Tint::ebony_line, 1.2},
    {"dark-slab-line", Tint::none, Tint::ebony_mark, 1.4},
    {"tray", Tint::none, Tint::ink, 1},
    {"tray-count", Tint::ink, Tint::none, 0, upright_bold},
    {"light-die", Tint::ivory, Tint::ivory_line, 1.6},
    {"dark-die", Tint::ebony, Tint::ebony_line, 1.6},
    {"light-pip", Tint::ivory_line},
    {"dark-pip", Tint::ebony_mark},
    {"cube", Tint::paper, Tint::ink, 2.2},
    {"cube-value", Tint::ink, Tint::none, 0, upright_bold},
    {"mark", Tint::none, Tint::pointer, 2.6},
    {"mark-ground", Tint::pointer},
    {"mark-number", Tint::on_accent, Tint::none, 0, upright_bold},
    {"halo", Tint::none, Tint::field, 8, round_ends},
    {"arrow", Tint::none, Tint::allowed, 4.2, round_ends},
    {"arrow-head", Tint::allowed, Tint::field, 1.4},
    {"refusal", Tint::none, Tint::refused, 4, broken},
    {"refusal-disc", Tint::refused, Tint::field, 1.8},
    {"refusal-cross", Tint::none, Tint::on_accent, 3.2, round_ends},
}};

constexpr std::array<std::string_view, 4> figure_names{"light-checker", "dark-checker",
                                                       "light-slab", "dark-slab"};

const RoleEntry& entry(Role role) {
  return roles[static_cast<std::size_t>(role)];
}
const TintEntry& entry(Tint tint) {
  return tints[static_cast<std::size_t>(tint)];
}

std::string_view figure_name(Figure figure) {
  return figure_names[static_cast<std::size_t>(figure)];
}

// The attributes that every shape of a role has: its class and, where asked for, its colours.
std::string role_attributes(Role role, const SvgStyle& style) {
  const RoleEntry& look = entry(role);
  std::string text = fmt::format(" class=\"pw-{}\"", look.name);
  if (!style.colours) {
    return text;
  }
  const auto theme = static_cast<std::size_t>(style.theme);
  text += fmt::format(" fill=\"{}\"", entry(look.fill).colours[theme]);
  if (look.stroke != Tint::none) {
    text += fmt::format(R"( stroke="{}" stroke-width="{}")", entry(look.stroke).colours[theme],
                        look.width);
  }
  text += look.more;
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
    out += fmt::format(R"(<use href="#{}-{}" x="{}" y="{}"/>)", style.prefix,
                       figure_name(stamp.figure), svg_number(stamp.at.x), svg_number(stamp.at.y));
  }
};

void write_shape(std::string& out, const Shape& shape, const SvgStyle& style) {
  std::visit(ShapeWriter{out, style, shape.role}, shape.form);
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
  for (const RoleEntry& look : roles) {
    css += fmt::format(
        ".pw-{}{{fill:{}", look.name,
        look.fill == Tint::none ? "none" : fmt::format("var(--pw-{})", entry(look.fill).name));
    if (look.stroke != Tint::none) {
      css +=
          fmt::format(";stroke:var(--pw-{});stroke-width:{}", entry(look.stroke).name, look.width);
    }
    // `more` is a list of attributes, NAME="VALUE", which are CSS declarations of the same names.
    std::string_view rest = look.more;
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
  for (const TintEntry& tint : tints) {
    if (tint.name != "none") {
      css += fmt::format("--pw-{}:{};", tint.name, tint.colours[static_cast<std::size_t>(theme)]);
    }
  }
  return css;
}

std::string_view drawing_fonts() {
  return "Palatino, 'Palatino Linotype', 'Book Antiqua', Georgia, 'DejaVu Serif', serif";
}

}  // namespace pointwright

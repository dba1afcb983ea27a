#include <fmt/format.h>

#include "studio/board_marks.hpp"
#include "studio/page_parts.hpp"
#include "studio/wording.hpp"

namespace pointwright {

namespace {

SvgStyle page_style() {
  return {false, Theme::light, "pw"};
}

std::string ground_id(const View& view) {
  return fmt::format("pw-ground-{}{}", view.home_on_left ? "left" : "right",
                     view.numbering == view.bottom ? "" : "-far");
}

// Clear shapes over the places of a board, for a pointer. The keyboard has the field for answers.
void write_picks(std::string& out, const BoardGeometry& geometry, Side side) {
  out += "\n<g class=\"picks\">";
  for (int place = off_place; place <= bar_place; ++place) {
    const drawing::Box box = place_box(geometry, side, static_cast<Place>(place));
    out += fmt::format(R"(<rect data-place="{}" x="{}" y="{}" width="{}" height="{}" rx="6"/>)",
                       to_text(static_cast<Place>(place)), svg_number(box.corner.x),
                       svg_number(box.corner.y), svg_number(box.width), svg_number(box.height));
  }
  out += "</g>";
}

}  // namespace

std::string board_attributes(std::string_view position, const SideNames& names, const View& view) {
  return fmt::format(
      R"( data-position="{}" data-light="{}" data-dark="{}" data-bottom="{}" data-home="{}" data-numbering="{}")",
      escaped(position), escaped(names[Side::light]), escaped(names[Side::dark]), name(view.bottom),
      view.home_on_left ? "left" : "right", name(view.numbering));
}

void BoardWriter::frame(std::string& out, const Position& position, const BoardPicture& picture) {
  for (const drawing::Layer& layer : board_frame(position, picture).layers) {
    if (layer.kind != drawing::Layer::Kind::ground) {
      write_layer(out, layer, page_style());
    }
  }
}

void BoardWriter::board(std::string& out, const Position& position, const BoardPicture& picture,
                        std::string_view id, std::string_view title,
                        std::optional<Side> picked_by) {
  const std::string ground = ground_id(picture.view);
  if (grounds_used_.insert(ground).second) {
    grounds_ += fmt::format("<g id=\"{}\">", ground);
    write_layer(grounds_, board_ground(picture.view, true), page_style());
    grounds_ += "</g>\n";
  }
  out += fmt::format(
      "<svg class=\"board\" viewBox=\"0 0 {} {}\" role=\"img\" aria-labelledby=\"{}-title "
      "{}-text\">\n<title id=\"{}-title\">{}</title><desc id=\"{}-text\">{}</desc>\n"
      "<use href=\"#{}\"/>\n<g class=\"live\">\n",
      svg_number(BoardGeometry::width), svg_number(BoardGeometry(picture.view, true).height()), id,
      id, id, escaped(title), id, escaped(spoken_position(position, picture.names)), ground);
  frame(out, position, picture);
  out += "</g>";
  if (picked_by) {
    write_picks(out, BoardGeometry(picture.view, true), *picked_by);
  }
  out += "</svg>\n";
}

void BoardWriter::shared(std::string& out) const {
  out +=
      "<svg class=\"shared\" width=\"0\" height=\"0\" aria-hidden=\"true\" "
      "focusable=\"false\"><defs>\n";
  write_figures(out, page_style());
  out += grounds_ + "</defs></svg>\n";
}

}  // namespace pointwright

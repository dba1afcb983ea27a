#include "studio/diagram.hpp"

#include <fmt/format.h>

#include "studio/wording.hpp"

namespace pointwright {

std::string diagram_svg(const Position& position, const DiagramOptions& options) {
  BoardPicture picture;
  picture.view = options.view;
  picture.names = options.names;
  picture.arrows = options.arrows;
  picture.marks = options.marks;
  picture.margins = options.margins;
  picture.offered_by = options.offered_by;
  const drawing::Frame frame = board_frame(position, picture);
  const SvgStyle style{true, options.theme, escaped(options.id)};
  const std::string title =
      options.caption.empty() ? position_title(position, options.names) : options.caption;

  std::string out = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" width=\"{}\" "
      "height=\"{}\" role=\"img\" aria-labelledby=\"{}-title {}-text\" font-family=\"{}\">\n",
      svg_number(frame.width), svg_number(frame.height), svg_number(options.width),
      svg_number(options.width * frame.height / frame.width), style.prefix, style.prefix,
      escaped(drawing_fonts()));
  out += fmt::format("<title id=\"{}-title\">{}</title>\n", style.prefix, escaped(title));
  out += fmt::format("<desc id=\"{}-text\">{}</desc>\n", style.prefix,
                     escaped(spoken_position(position, options.names)));
  out += "<defs>\n";
  write_figures(out, style);
  out += "</defs>\n";
  const drawing::Box paper{{0, 0}, frame.width, frame.height, 0};
  write_layer(out, {drawing::Layer::Kind::ground, {{drawing::Role::page, paper, {}}}}, style);
  for (const drawing::Layer& layer : frame.layers) {
    write_layer(out, layer, style);
  }
  out += "</svg>\n";
  return out;
}

}  // namespace pointwright

// Positions and their pictures.

#include <fmt/format.h>

#include "rules/score.hpp"
#include "rules/text.hpp"
#include "studio/board_marks.hpp"
#include "studio/diagram.hpp"
#include "studio/page_parts.hpp"
#include "studio/wording.hpp"
#include "web/answers.hpp"

namespace pointwright::web {
namespace {

constexpr std::string_view figure_prefix = "pw";

/// The moves or marks of a field, "SIDE FROM/TO SIDE FROM/TO ...", as arrows.
std::vector<Arrow> arrows_of(std::string_view given) {
  std::vector<Arrow> arrows;
  const auto words = text::words(given, {0, given.size()}, false);
  for (std::size_t i = 0; i + 1 < words.size(); i += 2) {
    const auto attempt = read_play(words[i + 1].text);
    if (!attempt) continue;
    for (const Journey& journey : attempt->journeys) {
      for (std::size_t stop = 0; stop + 1 < journey.stops.size(); ++stop)
        arrows.push_back({side_of(words[i].text), journey.stops[stop], journey.stops[stop + 1]});
    }
  }
  return arrows;
}

BoardPicture picture_of(const Request& request) {
  BoardPicture picture;
  picture.view = view_of(request);
  picture.names = names_of(request);
  picture.margins = request.value("margins") != "no";
  picture.arrows = arrows_of(request.value("arrows"));
  if (request.has("offered")) picture.offered_by = side_of(request.value("offered"));
  return picture;
}

/// [x, y, width, height] of each place as `side` counts, 0 to 25.
Json boxes(const BoardGeometry& geometry, Side side) {
  Json list = Json::list();
  for (int place = off_place; place <= bar_place; ++place) {
    const drawing::Box box = place_box(geometry, side, static_cast<Place>(place));
    Json numbers = Json::list();
    for (const double value : {box.corner.x, box.corner.y, box.width, box.height})
      numbers.add(static_cast<int>(value));
    list.add(numbers);
  }
  return list;
}

}  // namespace

Json error_object(std::string_view id, std::string_view reason) {
  return Json::object().set("error", Json::object().set("id", id).set("reason", reason));
}

Json faults_object(const Faults& faults) {
  Json list = Json::list();
  for (const Fault& fault : faults) {
    list.add(Json::object()
                 .set("id", fault.id)
                 .set("begin", static_cast<int>(fault.where.begin))
                 .set("end", static_cast<int>(fault.where.end))
                 .set("reason", fault.reason)
                 .set("fix", fault.fix));
  }
  return Json::object().set("faults", list);
}

Json camps_object(const Board& board) {
  Json camps = Json::object();
  for (const Side side : {Side::light, Side::dark}) {
    Json counts = Json::list();
    for (const std::uint8_t count : board.of(side)) counts.add(static_cast<int>(count));
    camps.set(name(side), counts);
  }
  return camps;
}

Json answer_position(const Request& request) {
  const auto position = position_of(request);
  if (!position) return faults_object(position.error());
  const SideNames names = names_of(request);
  Json answer = Json::object();
  answer.set("position", to_text(*position))
      .set("link", to_url_text(*position))
      .set("title", position_title(*position, names))
      .set("spoken", spoken_position(*position, names))
      .set("over", winner_of(position->board).has_value())
      .set("contact", has_contact(position->board))
      .set("camps", camps_object(position->board))
      .set("pips", Json::list()
                       .add(pip_count(position->board, Side::light))
                       .add(pip_count(position->board, Side::dark)));
  if (position->turn) answer.set("turn", name(*position->turn));
  if (position->roll) answer.set("roll", to_text(*position->roll));
  return answer;
}

Json answer_picture(const Request& request) {
  const auto position = position_of(request);
  if (!position) return faults_object(position.error());
  const BoardPicture picture = picture_of(request);
  const BoardGeometry geometry(picture.view, picture.margins);
  std::string svg;
  const SvgStyle style{false, Theme::light, std::string(figure_prefix), true};
  for (const drawing::Layer& layer : board_frame(*position, picture).layers) {
    if (layer.kind != drawing::Layer::Kind::ground) write_layer(svg, layer, style);
  }
  return Json::object()
      .set("svg", svg)
      .set("width", static_cast<int>(BoardGeometry::width))
      .set("height", static_cast<int>(geometry.height()))
      .set("light", boxes(geometry, Side::light))
      .set("dark", boxes(geometry, Side::dark));
}

Json answer_ground(const Request& request) {
  const SvgStyle style{false, Theme::light, std::string(figure_prefix), false};
  std::string ground;
  write_layer(ground, board_ground(view_of(request), request.value("margins") != "no"), style);
  std::string figures;
  write_figures(figures, style);
  return Json::object().set("ground", ground).set("figures", figures);
}

Json answer_diagram(const Request& request) {
  const auto position = position_of(request);
  if (!position) return faults_object(position.error());
  DiagramOptions options;
  options.view = view_of(request);
  options.names = names_of(request);
  options.arrows = arrows_of(request.value("arrows"));
  options.margins = request.value("margins") != "no";
  if (request.value("theme") == "dark") options.theme = Theme::dark;
  if (request.value("theme") == "print") options.theme = Theme::print;
  return Json::object().set("svg", diagram_svg(*position, options));
}

}  // namespace pointwright::web

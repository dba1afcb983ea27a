#include "web/request.hpp"

namespace pointwright::web {

std::string_view Request::value(std::string_view key) const {
  for (const Field& field : fields)
    if (field.key == key) return field.value;
  return {};
}

bool Request::has(std::string_view key) const {
  return !value(key).empty();
}

Request read_request(std::string_view text) {
  Request request;
  bool first = true;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    const std::string_view line = text.substr(0, end);
    text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
    const std::size_t space = line.find(' ');
    if (first) {
      request.verb = line;
    } else if (space == std::string_view::npos) {
      request.fields.push_back({line, {}});
    } else {
      request.fields.push_back({line.substr(0, space), line.substr(space + 1)});
    }
    first = false;
  }
  return request;
}

std::string record_of(const Request& request) {
  std::string record;
  for (const Request::Field& field : request.fields) {
    record += field.key;
    if (!field.value.empty()) record += ' ';
    record += field.value;
    record += '\n';
  }
  return record;
}

SideNames names_of(const Request& request) {
  SideNames names;
  for (const Side side : {Side::light, Side::dark}) {
    const std::string_view given = request.value(name(side));
    if (!given.empty()) names.of[index(side)] = std::string(given);
  }
  return names;
}

Side side_of(std::string_view word) {
  return word == name(Side::dark) ? Side::dark : Side::light;
}

View view_of(const Request& request) {
  View view;
  view.bottom = side_of(request.value("bottom"));
  view.home_on_left = request.value("home") == "left";
  view.numbering = request.has("numbering") ? side_of(request.value("numbering")) : view.bottom;
  return view;
}

Result<Position, Faults> position_of(const Request& request) {
  auto position = read_position(request.value("position"));
  if (!position) return position;
  if (request.has("turn")) {
    position.value().turn = side_of(request.value("turn"));
    position.value().roll.reset();
  }
  const std::string_view dice = request.value("roll");
  const auto is_die = [](char c) { return c >= '1' && c <= '6'; };
  if (dice.size() == 3 && is_die(dice[0]) && is_die(dice[2]) && position->turn)
    position.value().roll = Roll(dice[0] - '0', dice[2] - '0');
  return position;
}

}  // namespace pointwright::web

#include "rules/position.hpp"

#include "rules/fingerprint.hpp"

namespace pointwright {
namespace {

std::string camp_text(const Board& board, Side side) {
  std::string result(name(side));
  const auto add = [&](Place place) {
    const int count = board.count(side, place);
    if (count != 0) result += " " + to_text(place) + "x" + std::to_string(count);
  };
  for (Place place = bar_place; place >= 1; --place) add(place);
  add(off_place);
  return result;
}

std::string cube_text(const Cube& cube) {
  return "cube " + std::to_string(cube.value) +
         (cube.holder ? " with " + std::string(name(*cube.holder)) : " centred");
}

std::string match_text(const MatchScore& match) {
  return "match to " + std::to_string(match.length) + " score " + std::to_string(match.points[0]) +
         "-" + std::to_string(match.points[1]) + (match.crawford ? " crawford" : "");
}

std::string house_text(const HouseRules& house) {
  std::string result;
  for (const HouseRule& rule : house_rules()) {
    if (house.*rule.member == rule.by_default) continue;
    result += (rule.by_default ? " no-" : " ") + std::string(rule.name);
  }
  return result.empty() ? result : "house" + result;
}

}  // namespace

std::string to_text(Place place) {
  if (place == bar_place) return "bar";
  if (place == off_place) return "off";
  return std::to_string(place);
}

std::string to_text(const Board& board) {
  return camp_text(board, Side::light) + "; " + camp_text(board, Side::dark);
}

std::string to_text(const Position& position) {
  std::string result = to_text(position.board);
  if (position.turn) {
    result += "; " + std::string(name(*position.turn)) + " to ";
    result += position.roll ? "play " + to_text(*position.roll) : "roll";
  }
  if (position.cube != Cube{}) result += "; " + cube_text(position.cube);
  if (position.match) result += "; " + match_text(*position.match);
  const std::string house = house_text(position.house);
  if (!house.empty()) result += "; " + house;
  return result;
}

std::string to_url_text(const Position& position) {
  std::string result = to_text(position);
  for (char& c : result) {
    if (c == ' ') c = '_';
  }
  return result;
}

std::uint64_t hash(const Position& position) {
  // The canonical text says everything.
  Fingerprint print;
  for (const char c : to_text(position)) print.add_byte(static_cast<unsigned char>(c));
  return print.value();
}

}  // namespace pointwright

#include "app/text_board.hpp"

#include <fmt/format.h>

namespace pointwright::app {
namespace {

/// What stands on a point as the viewer counts: "L5", "D2" or ".".
std::string on_point(const Board& board, Side viewer, int point) {
  const int own = board.count(viewer, static_cast<Place>(point));
  const int theirs = board.count(opponent(viewer), mirrored(static_cast<Place>(point)));
  const auto letter = [](Side side) { return side == Side::light ? 'L' : 'D'; };
  if (own > 0) return fmt::format("{}{}", letter(viewer), own);
  if (theirs > 0) return fmt::format("{}{}", letter(opponent(viewer)), theirs);
  return ".";
}

std::string row(int first, int step, const auto& cell) {
  std::string result = "  ";
  for (int i = 0; i < 12; ++i) {
    if (i == 6) result += " |";
    result += fmt::format("{:>4}", cell(first + step * i));
  }
  return result;
}

std::string aside(const Board& board, Side side) {
  return fmt::format("   {}: {} on the bar, {} off, {} pips", name(side),
                     board.count(side, bar_place), board.count(side, off_place),
                     pip_count(board, side));
}

std::string cube_text(const Position& position) {
  if (!position.house.cube) return {};
  const std::string where =
      position.cube.holder ? fmt::format("with {}", name(*position.cube.holder)) : "in the middle";
  return fmt::format("   cube: {} {}", position.cube.value, where);
}

}  // namespace

std::string text_board(const Position& position, Side viewer) {
  const auto number = [](int point) { return std::to_string(point); };
  const auto checkers = [&](int point) { return on_point(position.board, viewer, point); };
  std::string result = row(13, 1, number) + "\n";
  result += row(13, 1, checkers) + aside(position.board, opponent(viewer)) + "\n";
  result += cube_text(position) + "\n";
  result += row(12, -1, checkers) + aside(position.board, viewer) + "\n";
  return result + row(12, -1, number) + "\n";
}

}  // namespace pointwright::app

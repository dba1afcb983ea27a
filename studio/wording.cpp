#include "studio/wording.hpp"

#include <fmt/format.h>

#include <bit>
#include <vector>

namespace pointwright {

namespace {

std::string checkers(int count) {
  return count == 1 ? "1 checker" : fmt::format("{} checkers", count);
}

std::string joined(const std::vector<std::string>& parts) {
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    text += i == 0 ? "" : (i + 1 == parts.size() ? " and " : ", ");
    text += parts[i];
  }
  return text;
}

std::string camp_sentence(const Position& position, Side side, const SideNames& names) {
  std::vector<std::string> parts;
  const Camp& camp = position.board.of(side);
  for (int place = bar_place; place >= 0; --place) {
    const int count = camp[static_cast<std::size_t>(place)];
    if (count == 0) {
      continue;
    }
    if (place == bar_place) {
      parts.push_back(checkers(count) + " on the bar");
    } else if (place == off_place) {
      parts.push_back(checkers(count) + " borne off");
    } else {
      parts.push_back(fmt::format("{} on the {}-point", checkers(count), place));
    }
  }
  return fmt::format("{}, counting from its own home: {}; {}.", names[side], joined(parts),
                     tally_words(position, side));
}

std::string superscript(int number) {
  static constexpr std::string_view digits[] = {"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};
  std::string text;
  for (const char digit : std::to_string(number)) {
    text += digits[digit - '0'];
  }
  return text;
}

}  // namespace

std::string shortened(std::string_view text, int longest) {
  int characters = 0;
  std::size_t cut = text.size();
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool starts = (static_cast<unsigned char>(text[i]) & 0xC0U) != 0x80U;
    if (!starts) {
      continue;
    }
    if (characters == longest - 1) {
      cut = i;
    }
    if (++characters > longest) {
      return std::string(text.substr(0, cut)) + "…";
    }
  }
  return std::string(text);
}

std::string turn_words(const Position& position, Side side) {
  if (position.turn != side) {
    return {};
  }
  return position.roll ? "to play " + to_text(*position.roll) : "to roll";
}

std::string tally_words(const Position& position, Side side) {
  const int pips = pip_count(position.board, side);
  std::string text = pips == 1 ? "1 pip" : fmt::format("{} pips", pips);
  if (position.match) text += ", " + score_words(position, side);
  return text;
}

std::string score_words(const Position& position, Side side) {
  if (!position.match) return {};
  return fmt::format("{} of {}", position.match->points[index(side)], position.match->length);
}

CubeFace cube_face(std::uint64_t value) {
  std::string text = std::to_string(value);
  if (text.size() > 5) {
    return {"2" + superscript(std::countr_zero(value)), 20};
  }
  static constexpr double sizes[] = {24, 24, 22, 18, 15, 12};
  const double size = sizes[text.size()];
  return {std::move(text), size};
}

std::string position_title(const Position& position, const SideNames& names) {
  if (!position.turn) {
    return fmt::format("{} and {}", names[Side::light], names[Side::dark]);
  }
  return names[*position.turn] + " " + turn_words(position, *position.turn);
}

std::string spoken_position(const Position& position, const SideNames& names) {
  std::string text = camp_sentence(position, Side::light, names) + " " +
                     camp_sentence(position, Side::dark, names);
  if (position.house.cube) {
    text += position.cube.holder
                ? fmt::format(" The cube stands at {} with {}.", position.cube.value,
                              names[*position.cube.holder])
                : fmt::format(" The cube is in the middle at {}.", position.cube.value);
  }
  if (position.match) {
    text += fmt::format(" Match to {}{}.", position.match->length,
                        position.match->crawford ? ", the Crawford game" : "");
  }
  if (position.turn) {
    text += " " + position_title(position, names) + ".";
  }
  return text;
}

}  // namespace pointwright

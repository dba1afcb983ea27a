#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "rules/position.hpp"
#include "rules/ruling.hpp"

/// The few words that pictures carry, and the words that stand in for a picture.
namespace pointwright {

/// At most `longest` characters of UTF-8 text; a cut one ends in an ellipsis.
std::string shortened(std::string_view text, int longest = 28);

/// "to roll", "to play 3-1", or nothing when it is not the side's turn.
std::string turn_words(const Position& position, Side side);

/// "167 pips", with the match score if there is one: "167 pips, 3 of 7".
std::string tally_words(const Position& position, Side side);

/// "3 of 7", or nothing outside a match.
std::string score_words(const Position& position, Side side);

/// What stands on the face of the cube and how large. Values of more than five digits are written
/// as a power of two: the cube has no upper limit, its face has.
struct CubeFace {
  std::string text;
  double size = 0;
};
CubeFace cube_face(std::uint64_t value);

/// A position in a few words, for a title: "Ivory to play 3-1".
std::string position_title(const Position& position, const SideNames& names);

/// A position in full sentences, for those who hear the picture instead of seeing it. Each side's
/// checkers are named from its own point of view, from the bar down to those borne off.
std::string spoken_position(const Position& position, const SideNames& names);

}  // namespace pointwright

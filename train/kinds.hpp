#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string_view>

#include "rules/board.hpp"

namespace pointwright::train {

/// Kinds of position, so that strength can be told apart. Each is defined by what can be counted
/// on the board (see kind_of), for want of a definition that all players share.
enum class Kind : std::uint8_t {
  opening,
  middle_game,
  attack,
  prime,
  holding_game,
  back_game,
  bear_in,
  race,
};

inline constexpr std::array<Kind, 8> all_kinds{Kind::opening, Kind::middle_game,  Kind::attack,
                                               Kind::prime,   Kind::holding_game, Kind::back_game,
                                               Kind::bear_in, Kind::race};

std::string_view name(Kind kind);
std::optional<Kind> kind_named(std::string_view name);

/// The first that fits; either side may be the one that is described:
/// - race: no contact;
/// - opening: at most six checkers of both sides away from where a game starts;
/// - bear-in: a side has all its checkers within its points 1 to 12 (or off), and meets contact;
/// - back game: a side holds two points of the other's home board and is 40 pips or more behind;
/// - prime: four or more points in a row in front of an opposing checker, and within six of it;
/// - attack: a side has a checker on the bar or a blot in the other's home board, no anchor there,
///   and the other has ten or more checkers within its points 1 to 12;
/// - holding game: a side holds one of its points 18 to 22 and the other has no checker behind its
///   own 18-point, or both sides hold one;
/// - middle game: everything else.
Kind kind_of(const Board& board);

}  // namespace pointwright::train

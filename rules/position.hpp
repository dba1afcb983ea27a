#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "rules/board.hpp"
#include "rules/fault.hpp"
#include "rules/house.hpp"
#include "rules/result.hpp"
#include "rules/roll.hpp"

namespace pointwright {

/// The doubling cube: its value and who holds it (nobody while it is in the middle).
struct Cube {
  std::uint64_t value = 1;  ///< a power of two
  std::optional<Side> holder;
  friend bool operator==(const Cube&, const Cube&) = default;
};

/// The largest value that a position can carry. The game has no limit; this is the program's,
/// sixty doublings away.
inline constexpr std::uint64_t largest_cube = std::uint64_t{1} << 60;

/// The score of a match to `length` points, light's first.
struct MatchScore {
  int length = 1;
  std::array<int, 2> points{};
  bool crawford = false;  ///< whether this game is the Crawford game
  friend bool operator==(const MatchScore&, const MatchScore&) = default;
};

/// The longest match that a position line can name.
inline constexpr int longest_match = 999;

/// A valid position: checkers, whose turn, dice, cube, score and house rules. Comes from
/// `validate` or `read_position`, or from another position by rules of play.
struct Position {
  Board board;
  std::optional<Side> turn;
  std::optional<Roll> roll;  ///< set only with `turn`
  Cube cube;
  std::optional<MatchScore> match;  ///< none: played for points, game by game
  HouseRules house;
  friend bool operator==(const Position&, const Position&) = default;
};

/// Reads a position line (docs/position-line.md), with spaces or underscores between its words.
/// All faults found are returned, each with its span in `text`.
Result<Position, Faults> read_position(std::string_view text);

/// Prints the canonical position line. Inverse of `read_position`.
std::string to_text(const Position& position);

/// Prints the checkers of both sides alone: "light …; dark …".
std::string to_text(const Board& board);

/// The position line with underscores, safe in a URL.
std::string to_url_text(const Position& position);

/// A place as it is written: "bar", "off", or the number of a point.
std::string to_text(Place place);

/// A 64-bit hash of the whole position, the same on every machine.
std::uint64_t hash(const Position& position);

}  // namespace pointwright

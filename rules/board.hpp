#pragma once

#include <array>
#include <cstdint>
#include <string_view>

namespace pointwright {

enum class Side : std::uint8_t { light, dark };

constexpr Side opponent(Side side) {
  return side == Side::light ? Side::dark : Side::light;
}
constexpr std::size_t index(Side side) {
  return static_cast<std::size_t>(side);
}
constexpr std::string_view name(Side side) {
  return side == Side::light ? "light" : "dark";
}

/// A place as one side counts it: 24 is farthest from home, 1 is next to bearing off.
using Place = std::uint8_t;
inline constexpr Place off_place = 0;
inline constexpr Place bar_place = 25;
inline constexpr Place last_home_point = 6;
inline constexpr int checkers_per_side = 15;

/// The same point as the other side counts it. Precondition: 1 <= point <= 24.
constexpr Place mirrored(Place point) {
  return static_cast<Place>(25 - point);
}

/// One side's checkers on each place, as that side counts: [0] off, [1..24] points, [25] bar.
using Camp = std::array<std::uint8_t, 26>;

/// Where all thirty checkers are. A plain value; `validate` in rules/setup.hpp decides whether one
/// that somebody typed can stand on a board.
struct Board {
  std::array<Camp, 2> camps{};

  [[nodiscard]] const Camp& of(Side side) const { return camps[index(side)]; }
  [[nodiscard]] Camp& of(Side side) { return camps[index(side)]; }
  [[nodiscard]] int count(Side side, Place place) const { return camps[index(side)][place]; }

  friend bool operator==(const Board&, const Board&) = default;
};

/// The set-up of a new game: 24x2 13x5 8x3 6x5 for each side (common practice, every rule book).
Board starting_board();

/// Pips that a side still has to move: the sum of place times checkers, the bar counting 25.
int pip_count(const Board& board, Side side);

/// The place of a side's rearmost checker: 25 for the bar, 0 when all are off.
Place rearmost(const Board& board, Side side);

/// Whether the sides can still hit or block each other: some checker has one of the other side in
/// front of it.
bool has_contact(const Board& board);

/// Whether all of a side's checkers are in its home board or off.
bool all_home(const Board& board, Side side);

/// Whether a side has borne off all its checkers.
bool has_won(const Board& board, Side side);

/// The board with light and dark exchanged.
Board swapped(const Board& board);

/// A 64-bit hash of the board. Equal boards have equal hashes, on every machine and in every build.
std::uint64_t hash(const Board& board);

}  // namespace pointwright

#pragma once

#include <optional>
#include <string_view>

#include "app/ending_tables.hpp"
#include "app/io.hpp"
#include "app/json.hpp"
#include "rules/fault.hpp"
#include "rules/position.hpp"

namespace pointwright::app {

/// An ending in which the sides can still meet, with at most three checkers left on each.
struct ContactEnding {
  double win = 0;                  ///< of the side on roll, without a cube, hits included
  std::optional<CubeValues> cube;  ///< nothing where the cube has no value
};

/// How such an ending is known, and why the cube may have no value in it.
inline constexpr std::string_view contact_how =
    "every position of the endgame with three checkers a side was solved, hits included";
inline constexpr std::string_view no_cube_value =
    "with the cube this position has no value: both sides go on doubling while the game goes on "
    "hitting, and the stake grows faster than the game ends";

/// Whether each side has at most three checkers left.
bool within_three_checkers(const Board& board);

/// The exact answer of the three-checker table; nothing where it does not reach, or has not been
/// built. Precondition: the position has a turn.
std::optional<ContactEnding> contact_ending(const Position& position, EndingTables& tables);

/// Why `race` cannot answer about a position in which the sides can still meet, and how to get the
/// number.
Fault contact_fault(const Position& position);

/// {"position", "on_roll", "contact": true, "light", "dark", "win", "known", "error", "how"}, with
/// "cube" where it has a value.
Json contact_object(const Position& position, const ContactEnding& ending);
void print_contact(const Position& position, const ContactEnding& ending, Io& io);

}  // namespace pointwright::app

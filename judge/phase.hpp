#pragma once

#include <array>
#include <cstdint>
#include <string_view>

#include "rules/board.hpp"

namespace pointwright::judge {

/// The kinds of position that have a net of their own. They are told apart by what costs little to
/// count, for it is done at every evaluation.
enum class Phase : std::uint8_t {
  open,      ///< contact, and none of the below
  blockade,  ///< a prime of four before an opposing checker, or two anchors in a home board
  bear_in,   ///< contact, and a side has all its checkers on its own half of the board
  race,      ///< no contact
};
inline constexpr std::array all_phases{Phase::open, Phase::blockade, Phase::bear_in, Phase::race};
inline constexpr std::size_t contact_phases = 3;  ///< the first ones

std::string_view name(Phase phase);

/// The phase of a position. The same for both sides.
Phase phase_of(const Board& board);

}  // namespace pointwright::judge

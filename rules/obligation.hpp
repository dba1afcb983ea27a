#pragma once

#include <string>
#include <vector>

#include "rules/board.hpp"
#include "rules/ruling.hpp"

namespace pointwright {

/// How much of a roll must be played: which of the must-play rules is in force.
struct Obligation {
  enum class Kind : std::uint8_t {
    none,       ///< no move is legal: the side dances
    one_die,    ///< only one die can be played, and it is `die`
    both_dice,  ///< both dice can be played, so both must be
    of_double,  ///< `moves` of the four moves of a double
  };
  Kind kind = Kind::none;
  int moves = 0;        ///< how many moves every legal play makes
  int die = 0;          ///< for one_die the die to be played, for of_double its number
  bool either = false;  ///< for one_die: either die could be played, so the larger must be
  friend bool operator==(const Obligation&, const Obligation&) = default;
};

/// Finds how much of the roll `side` must play.
Obligation obligation(const Board& board, Side side, Roll roll);

/// The same where the legal plays of the roll have been listed already.
Obligation obligation(const Board& board, Side side, Roll roll,
                      const std::vector<LegalPlay>& plays);

/// Says why in a sentence or two that a learner can check on the board.
/// Precondition: `position` has a turn and a roll.
std::string explain_obligation(const Position& position, const SideNames& names = {});

/// Whether `side` can move any checker by `die` now.
bool can_play(const Board& board, Side side, int die);

}  // namespace pointwright

#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "rules/notation.hpp"
#include "rules/play.hpp"
#include "rules/roll.hpp"
#include "rules/step.hpp"

/// How an attempt as written is matched with the dice: the first half of the referee's work.
namespace pointwright::reading {

/// The dice that are still to be played: how many of each number.
using Dice = std::array<std::uint8_t, 7>;
Dice dice_of(Roll roll);

/// One written stretch of a journey, from a stop to the next: one die, or several with stops on
/// the way that are not written.
struct Leg {
  std::size_t journey = 0;
  Place from = 0;
  Place to = 0;
  bool star = false;
};

/// The stretches of all journeys, as written.
std::vector<Leg> legs_of(const Attempt& attempt);

/// Whether the numbers on the dice can make up every leg, each die used once at most. Looks at
/// distances only, not at the board. Precondition: every leg goes forward.
bool dice_cover(const std::vector<Leg>& legs, const Dice& dice);

/// One die of a reading.
struct Taken {
  std::size_t leg = 0;
  int die = 0;
  Move move;
};

/// One way to play what is written: every step is allowed when it is made.
struct Reading {
  std::vector<Taken> steps;  ///< in an order in which they can be made
  Board after;
  int mismatches = 0;  ///< hits on the way without a star, and stars without a hit
  [[nodiscard]] Play play() const;
};

/// A step that the attempt needs next and that the board refuses.
struct Obstacle {
  Step why = Step::fine;
  std::size_t leg = 0;
  Place from = 0;
  int die = 0;
  Place to = 0;
};

/// Where the most that can be made of an attempt ends.
struct Stuck {
  Board board;
  std::vector<Taken> steps;
  std::vector<Obstacle> obstacles;  ///< every step that would go on, the most telling first
};

/// All readings of an attempt; if there is none, where it stops.
struct Match {
  std::vector<Reading> readings;
  std::optional<Stuck> stuck;  ///< set when there is no reading
};

/// Matches an attempt with the dice: tries every order of its moves, every share of the dice and
/// every unwritten stop. Precondition: every leg goes forward, and the dice cover the legs.
Match match(const Board& board, Side side, Roll roll, const std::vector<Leg>& legs);

}  // namespace pointwright::reading

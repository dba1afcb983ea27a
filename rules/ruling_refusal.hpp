#pragma once

#include <optional>
#include <string>
#include <vector>

#include "rules/ruling.hpp"
#include "rules/ruling_reading.hpp"

/// Why an attempt is refused: the second half of the referee's work.
namespace pointwright::refusal {

/// What an attempt is judged by.
struct Case {
  const Board& board;
  Side side;
  Roll roll;
  const Attempt& attempt;
  const std::vector<reading::Leg>& legs;
  const std::vector<LegalPlay>& legal;  ///< the nearest to the attempt first
  const SideNames& names;
};

/// The rule that decides, and the facts of this board that prove it.
struct Reason {
  const Rule* rule = nullptr;
  std::string proof;
};

/// What is wrong with the moves as written, whatever the other side has on the board: a move
/// without a checker, backward, or not in the dice. Nothing if they can be matched with the dice.
std::optional<Reason> by_writing(const Case& c);

/// Why no order of the written moves can be made on this board.
Reason by_board(const Case& c, const reading::Stuck& stuck);

/// Why moves that can each be made do not make up a legal play: they use too little of the roll.
/// Precondition: `read` is a reading of the attempt and leads to no legal result.
Reason by_duty(const Case& c, const reading::Reading& read);

/// Why a turn is not passed. Precondition: there is a legal play.
Reason by_passing(const Case& c);

}  // namespace pointwright::refusal

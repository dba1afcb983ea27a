#include "rules/obligation.hpp"

#include "rules/ruling_wording.hpp"
#include "rules/step.hpp"

namespace pointwright {

using Kind = Obligation::Kind;

bool can_play(const Board& board, Side side, int die) {
  for (Place from = bar_place; from > off_place; --from) {
    if (judge_step(board, side, from, die) == Step::fine) return true;
  }
  return false;
}

Obligation obligation(const Board& board, Side side, Roll roll,
                      const std::vector<LegalPlay>& plays) {
  Obligation result;
  if (plays.empty()) return result;
  result.moves = plays.front().play.size();
  if (roll.is_double()) {
    result.kind = Kind::of_double;
    result.die = roll.high();
  } else if (result.moves == 2) {
    result.kind = Kind::both_dice;
  } else {
    const bool high = can_play(board, side, roll.high());
    result.kind = Kind::one_die;
    result.die = high ? roll.high() : roll.low();
    result.either = high && can_play(board, side, roll.low());
  }
  return result;
}

Obligation obligation(const Board& board, Side side, Roll roll) {
  return obligation(board, side, roll, legal_plays(board, side, roll));
}

std::string explain_obligation(const Position& position, const SideNames& names) {
  using wording::sentence;
  const Side side = *position.turn;
  const Roll roll = *position.roll;
  const auto plays = legal_plays(position.board, side, roll);
  const Obligation duty = obligation(position.board, side, roll, plays);
  const wording::Speaker speaker(names, side);
  const std::string example = plays.empty() ? "" : to_text(plays.front().play);
  const std::string die = std::to_string(duty.die);
  switch (duty.kind) {
    case Kind::none: {
      std::string why = speaker.why_not(position.board, roll.high());
      if (!roll.is_double()) why += "; " + speaker.why_not(position.board, roll.low());
      return sentence(speaker.mover() + " has no legal move: " + why + ".");
    }
    case Kind::both_dice:
      return "Both dice can be played, as in " + example + ", so both must be.";
    case Kind::one_die: {
      const std::string other = std::to_string(roll.high() + roll.low() - duty.die);
      if (duty.either)
        return "Either die can be played, but not both: after a " + die + " there is no legal " +
               other + ", and after a " + other + " no legal " + die +
               ". The larger must be "
               "played, the " +
               die + ", as in " + example + ".";
      return "Only the " + die + " can be played, as in " + example + "; no " + other +
             " is legal before it or after it.";
    }
    case Kind::of_double: {
      const std::string many(wording::number_word(duty.moves));
      if (duty.moves == 4)
        return "All four " + die + "s can be played, as in " + example + ", so all four must be.";
      return sentence(many + " of the four " + die + "s can be played, as in " + example +
                      ", and " + (duty.moves == 1 ? "that one" : "those " + many) +
                      " must be; no play uses more.");
    }
  }
  return {};
}

}  // namespace pointwright

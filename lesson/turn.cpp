#include "lesson/turn.hpp"

#include <algorithm>

#include "rules/ruling_reading.hpp"
#include "rules/step.hpp"

namespace pointwright::lesson {
namespace {

/// Tells whether moves with the dice that are left lead from a board to one of the legal results.
class Completion {
 public:
  Completion(const Board& board, Side side, const std::vector<LegalPlay>& legal)
      : board_(board), side_(side), legal_(legal) {}

  bool exists(reading::Dice& dice) {
    const bool there =
        std::ranges::any_of(legal_, [&](const LegalPlay& play) { return play.after == board_; });
    if (there) return true;
    for (int die = 6; die >= 1; --die) {
      auto& left = dice[static_cast<std::size_t>(die)];
      if (left == 0) continue;
      --left;
      bool found = false;
      for (Place from = bar_place; from > off_place && !found; --from) {
        if (judge_step(board_, side_, from, die) != Step::fine) continue;
        const Place to = landing(from, die);
        const bool hit = make_move(board_, side_, from, to);
        found = exists(dice);
        take_back(board_, side_, {from, to, hit});
      }
      ++left;
      if (found) return true;
    }
    return false;
  }

 private:
  Board board_;
  Side side_;
  const std::vector<LegalPlay>& legal_;
};

bool begins_with(const reading::Reading& reading, const std::vector<Move>& made) {
  if (reading.steps.size() < made.size()) return false;
  return std::equal(
      made.begin(), made.end(), reading.steps.begin(),
      [](const Move& move, const reading::Taken& taken) { return move == taken.move; });
}

}  // namespace

std::optional<std::vector<Move>> go_on(const Board& start, Side side, Roll roll,
                                       const Attempt& whole, const std::vector<Move>& made) {
  const std::vector<reading::Leg> legs = reading::legs_of(whole);
  const bool forward =
      std::ranges::all_of(legs, [](const reading::Leg& leg) { return leg.from > leg.to; });
  if (legs.empty() || !forward || !reading::dice_cover(legs, reading::dice_of(roll)))
    return std::nullopt;
  const std::vector<LegalPlay> legal = legal_plays(start, side, roll);
  const reading::Match match = reading::match(start, side, roll, legs);
  const reading::Reading* best = nullptr;
  for (const reading::Reading& reading : match.readings) {
    if (!begins_with(reading, made)) continue;
    if (best != nullptr && best->mismatches <= reading.mismatches) continue;
    reading::Dice dice = reading::dice_of(roll);
    for (const reading::Taken& taken : reading.steps) --dice[static_cast<std::size_t>(taken.die)];
    if (Completion(reading.after, side, legal).exists(dice)) best = &reading;
  }
  if (best == nullptr) return std::nullopt;
  std::vector<Move> moves;
  for (const reading::Taken& taken : best->steps) moves.push_back(taken.move);
  return moves;
}

bool may_end(const Board& start, Side side, Roll roll, const Board& now) {
  const std::vector<LegalPlay> legal = legal_plays(start, side, roll);
  if (legal.empty()) return now == start;
  return std::ranges::any_of(legal, [&](const LegalPlay& play) { return play.after == now; });
}

}  // namespace pointwright::lesson

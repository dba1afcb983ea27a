#include <algorithm>

#include "rules/play.hpp"
#include "rules/step.hpp"

namespace pointwright {
namespace {

/// Walks through the sequences of steps that a roll allows, on one working board.
class Generator {
 public:
  Generator(const Board& board, Side side, std::vector<LegalPlay>& plays)
      : board_(board), side_(side), plays_(plays) {}

  void run(Roll roll) {
    plays_.clear();
    if (roll.is_double()) {
      play_double(roll.high(), bar_place, 4);
    } else {
      play_in_order(roll.high(), roll.low());
      play_in_order(roll.low(), roll.high());
      if (plays_.empty()) play_one(roll.high());
      if (plays_.empty()) play_one(roll.low());
    }
  }

 private:
  /// Calls `then` after each step that `die` allows from `farthest` or nearer.
  template <class Then>
  void each_step(int die, Place farthest, const Then& then) {
    for (Place from = farthest; from > off_place; --from) {
      if (judge_step(board_, side_, from, die) != Step::fine) continue;
      const Place to = landing(from, die);
      const bool hit = make_move(board_, side_, from, to);
      play_.push({from, to, hit});
      then(from);
      take_back(board_, side_, {from, to, hit});
      play_.pop();
    }
  }

  /// Equal steps may be sorted from far to near: a step only ever waits for one that starts farther
  /// back (to reach its starting point, to clear the bar, to bring the last checker home). Sorted,
  /// each distinct result comes up exactly once, since the steps of one die add up differently
  /// unless they are the same steps.
  void play_double(int die, Place farthest, int left) {
    bool stuck = true;
    if (left > 0) {
      each_step(die, farthest, [&](Place from) {
        stuck = false;
        play_double(die, from, left - 1);
      });
    }
    if (!stuck || play_.empty() || play_.size() < longest_) return;
    if (play_.size() > longest_) plays_.clear();
    longest_ = play_.size();
    plays_.push_back({play_, board_});
  }

  void play_in_order(int first, int second) {
    each_step(first, bar_place,
              [&](Place) { each_step(second, bar_place, [&](Place) { add_if_new(); }); });
  }

  void play_one(int die) {
    each_step(die, bar_place, [&](Place) { add_if_new(); });
  }

  void add_if_new() {
    const bool known = std::any_of(plays_.begin(), plays_.end(),
                                   [&](const LegalPlay& play) { return play.after == board_; });
    if (!known) plays_.push_back({play_, board_});
  }

  Board board_;
  Side side_;
  Play play_;
  int longest_ = 0;
  std::vector<LegalPlay>& plays_;
};

}  // namespace

void legal_plays(const Board& board, Side side, Roll roll, std::vector<LegalPlay>& plays) {
  Generator(board, side, plays).run(roll);
}

std::vector<LegalPlay> legal_plays(const Board& board, Side side, Roll roll) {
  std::vector<LegalPlay> plays;
  legal_plays(board, side, roll, plays);
  return plays;
}

}  // namespace pointwright

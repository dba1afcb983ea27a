#include "lesson/near_misses.hpp"

#include <algorithm>

#include "rules/step.hpp"

namespace pointwright::lesson {
namespace {

/// Collects moves that can be made one after the other and together are no legal play.
class ShortPlays {
 public:
  ShortPlays(const Position& position, const std::vector<LegalPlay>& legal, std::size_t most)
      : board_(position.board), side_(*position.turn), most_(most) {
    for (const LegalPlay& play : legal) known_.push_back(hash(play.after));
    std::ranges::sort(known_);
  }

  std::vector<Play> run(Roll roll) {
    if (roll.is_double()) {
      walk({roll.high(), roll.high(), roll.high(), roll.high()});
    } else {
      walk({roll.high(), roll.low()});
      walk({roll.low(), roll.high()});
    }
    return std::move(found_);
  }

 private:
  void walk(const std::vector<int>& dice) {
    if (!play_.empty()) note();
    if (found_.size() >= most_ || static_cast<std::size_t>(play_.size()) == dice.size()) return;
    const int die = dice[static_cast<std::size_t>(play_.size())];
    for (Place from = bar_place; from > off_place; --from) {
      // Equal dice in falling order: each set of moves comes up once.
      const bool repeated =
          dice.size() > 2 && !play_.empty() && from > play_[play_.size() - 1].from;
      if (repeated || judge_step(board_, side_, from, die) != Step::fine) continue;
      const Place to = landing(from, die);
      const bool hit = make_move(board_, side_, from, to);
      play_.push({from, to, hit});
      walk(dice);
      take_back(board_, side_, {from, to, hit});
      play_.pop();
    }
  }

  void note() {
    const std::uint64_t now = hash(board_);
    const auto place = std::ranges::lower_bound(known_, now);
    if (found_.size() >= most_ || (place != known_.end() && *place == now)) return;
    known_.insert(place, now);
    found_.push_back(play_);
  }

  Board board_;
  Side side_;
  std::size_t most_;
  Play play_;
  std::vector<std::uint64_t> known_;  ///< hashes of legal results and of those found, sorted
  std::vector<Play> found_;
};

}  // namespace

std::vector<Play> near_misses(const Position& position, const std::vector<LegalPlay>& legal,
                              std::size_t most) {
  const Side side = *position.turn;
  const Roll roll = *position.roll;
  std::vector<Play> found;
  if (!legal.empty()) found.emplace_back();  // passing the turn
  for (const int die : {roll.high(), roll.low()}) {
    for (Place from = bar_place; from > off_place; --from) {
      const Step step = judge_step(position.board, side, from, die);
      if (step == Step::fine || step == Step::no_checker) continue;
      Play play;
      play.push({from, landing(from, die), false});
      if (std::ranges::find(found, play) == found.end()) found.push_back(play);
    }
  }
  if (found.size() > most) found.resize(most);
  const std::vector<Play> short_ones = ShortPlays(position, legal, most - found.size()).run(roll);
  found.insert(found.end(), short_ones.begin(), short_ones.end());
  return found;
}

}  // namespace pointwright::lesson

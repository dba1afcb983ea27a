#include "judge/contest.hpp"

#include "rules/opening.hpp"
#include "rules/score.hpp"

namespace pointwright::judge {
namespace {

/// A game of thousands of turns would never be seen; this only bounds the loop.
constexpr int most_turns = 5000;

class Game {
 public:
  Game(Opponent& light, Opponent& dark, std::uint64_t dice)
      : players_{&light, &dark}, search_(light.evaluator(), {.cache_bits = 8}), random_(dice) {}

  ContestGame play() {
    Side side = Side::light;
    const Roll first = opening(side);
    turn(side, first);
    while (!winner_of(board_) && result_.turns < most_turns) {
      side = opponent(side);
      const Roll roll(1 + random_.below(6), 1 + random_.below(6));
      take_luck_out(side, roll);
      turn(side, roll);
    }
    if (const auto winner = winner_of(board_)) {
      const auto kind = static_cast<double>(*win_kind(board_));
      result_.points = *winner == Side::light ? kind : -kind;
    }
    result_.adjusted = result_.points - luck_;
    return result_;
  }

 private:
  Roll opening(Side& side) {
    while (true) {
      const int light = 1 + random_.below(6);
      const int dark = 1 + random_.below(6);
      const auto winner = opening_winner(light, dark);
      if (!winner) continue;
      side = *winner;
      return {light, dark};
    }
  }

  /// The luck of a roll: what it brings if played best at once, less the mean of all 21.
  void take_luck_out(Side side, Roll roll) {
    search_.look(board_, side, Valuation::money(), look_);
    for (std::size_t i = 0; i < all_rolls().size(); ++i) {
      if (!(all_rolls()[i] == roll)) continue;
      const auto luck =
          static_cast<double>(look_.chances[i].equity()) - static_cast<double>(look_.mean.equity());
      luck_ += side == Side::light ? luck : -luck;
    }
  }

  void turn(Side side, Roll roll) {
    const Board before = board_;
    board_ = players_[index(side)]->choose(board_, side, roll).after;
    players_[index(opponent(side))]->observe(before, side, roll, board_);
    search_.rank(before, side, roll, 0, Valuation::money(), ranked_);
    ++result_.turns;
    if (ranked_.size() < 2) return;
    result_.losses[index(side)].total += cost_at_once(ranked_, board_);
    ++result_.losses[index(side)].decisions;
  }

  std::array<Opponent*, 2> players_;
  Search search_;
  RandomStream random_;
  Board board_ = starting_board();
  Search::Look look_;
  std::vector<RankedPlay> ranked_;
  double luck_ = 0;
  ContestGame result_;
};

}  // namespace

ContestGame play_game(Opponent& light, Opponent& dark, std::uint64_t dice) {
  return Game(light, dark, dice).play();
}

}  // namespace pointwright::judge

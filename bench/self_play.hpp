#pragma once

#include <random>
#include <vector>

#include "judge/shipped.hpp"
#include "rules/play.hpp"

namespace pointwright::bench {

/// A roll to be played.
struct Decision {
  Board board;
  Side side;
  Roll roll;
};

/// Decisions with contact from games that the shipped nets play against themselves, as a search
/// meets them. The same ones for the same number.
inline std::vector<Decision> decisions(std::size_t count) {
  std::mt19937_64 random(1);
  const auto die = [&] { return 1 + static_cast<int>(random() % 6); };
  std::vector<Decision> all;
  const judge::Evaluator& evaluator = judge::shipped_evaluator();
  std::vector<LegalPlay> plays;
  while (all.size() < count) {
    Board board = starting_board();
    Side side = Side::light;
    while (has_contact(board) && all.size() < count) {
      const Roll roll(die(), die());
      legal_plays(board, side, roll, plays);
      if (plays.size() > 1) all.push_back({board, side, roll});
      if (!plays.empty()) board = plays[evaluator.best_play(plays, side)].after;
      side = opponent(side);
    }
  }
  return all;
}

}  // namespace pointwright::bench

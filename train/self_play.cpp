#include "train/self_play.hpp"

namespace pointwright::train {
namespace {

int below(std::mt19937_64& random, int n) {
  return static_cast<int>(random() % static_cast<std::uint64_t>(n));
}

/// A game that has not ended by then would teach nothing; real ones last about 55 plays.
constexpr int longest_game = 400;

}  // namespace

void play_game(const judge::Evaluator& evaluator, const SelfPlay& how, std::mt19937_64& random,
               Game& game, const std::optional<Visit>& start) {
  game.visits.clear();
  Board board = start ? start->board : starting_board();
  Side side = start ? start->on_roll : Side::light;
  std::vector<LegalPlay> plays;
  int random_plays = 0;
  if (!start && static_cast<double>(random() % 1000) < 1000 * how.strange_starts)
    random_plays = below(random, how.most_random_plays + 1);
  for (int turn = 0; turn < longest_game; ++turn) {
    game.end = {};
    if (has_won(board, opponent(side)) || !has_contact(board)) {
      game.end = evaluator.evaluate(board, side);
      if (game.end.origin != judge::Origin::race_net) return;
    }
    if (turn >= random_plays) game.visits.push_back({board, side});
    Roll roll(1 + below(random, 6), 1 + below(random, 6));
    while (turn == 0 && !start && roll.is_double())
      roll = Roll(1 + below(random, 6), 1 + below(random, 6));
    legal_plays(board, side, roll, plays);
    if (!plays.empty()) {
      const std::size_t choice = turn < random_plays
                                     ? static_cast<std::size_t>(random() % plays.size())
                                     : evaluator.best_play(plays, side);
      board = plays[choice].after;
    }
    side = opponent(side);
  }
  game.visits.clear();
}

}  // namespace pointwright::train

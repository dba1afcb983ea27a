#include "train/self_play.hpp"

namespace pointwright::train {
namespace {

int below(std::mt19937_64& random, int n) {
  return static_cast<int>(random() % static_cast<std::uint64_t>(n));
}

bool happens(std::mt19937_64& random, double share) {
  return share > 0 && static_cast<double>(random() % 1000) < 1000 * share;
}

/// The best of about half of the plays, drawn at random; `best` if none is drawn.
std::size_t best_of_some(const judge::Evaluator& evaluator, const std::vector<LegalPlay>& plays,
                         Side side, std::size_t best, std::mt19937_64& random) {
  std::vector<LegalPlay> some;
  std::vector<std::size_t> indices;
  const std::uint64_t drawn = random();
  for (std::size_t i = 0; i < plays.size(); ++i) {
    if (((drawn >> (i % 64)) & 1U) == 0) continue;
    some.push_back(plays[i]);
    indices.push_back(i);
  }
  return some.empty() ? best : indices[evaluator.best_play(some, side)];
}

/// A game that has not ended by then would teach nothing; real ones last about 55 plays.
constexpr int longest_game = 400;

}  // namespace

void play_game(const judge::Evaluator& evaluator, const SelfPlay& how, std::mt19937_64& random,
               Game& game, const std::optional<Visit>& start) {
  game.visits.clear();
  game.better.clear();
  Board board = start ? start->board : starting_board();
  Side side = start ? start->on_roll : Side::light;
  std::vector<LegalPlay> plays;
  int random_plays = 0;
  if (!start && static_cast<double>(random() % 1000) < 1000 * how.strange_starts)
    random_plays = below(random, how.most_random_plays + 1);
  for (int turn = 0; turn < longest_game; ++turn) {
    game.end = {};
    if (has_won(board, opponent(side)) || !has_contact(board)) {
      game.last = {board, side};
      game.end = evaluator.evaluate(board, side);
      if (game.end.origin != judge::Origin::race_net) return;
    }
    if (turn >= random_plays) {
      game.visits.push_back({board, side});
      game.better.emplace_back();
    }
    Roll roll(1 + below(random, 6), 1 + below(random, 6));
    while (turn == 0 && !start && roll.is_double())
      roll = Roll(1 + below(random, 6), 1 + below(random, 6));
    legal_plays(board, side, roll, plays);
    if (!plays.empty()) {
      std::size_t choice = 0;
      if (turn < random_plays) {
        choice = static_cast<std::size_t>(random() % plays.size());
      } else {
        const std::size_t best = evaluator.best_play(plays, side);
        choice = happens(random, how.wandering) ? best_of_some(evaluator, plays, side, best, random)
                                                : best;
        if (choice != best)
          game.better.back() = evaluator.evaluate(plays[best].after, opponent(side)).chances;
      }
      board = plays[choice].after;
    }
    side = opponent(side);
  }
  game.visits.clear();
}

}  // namespace pointwright::train

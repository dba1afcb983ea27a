#include "train/duel.hpp"

#include <array>
#include <cmath>
#include <vector>

#include "judge/random.hpp"
#include "rules/score.hpp"
#include "train/net_files.hpp"

namespace pointwright::train {
namespace {

int points_of(const Board& board) {
  return static_cast<int>(win_kind(board).value_or(WinKind::single));
}

/// What light wins, in points; less than nought if dark wins.
int play_game(const std::array<const judge::Evaluator*, 2>& players, std::uint64_t seed) {
  judge::RandomStream random(seed);
  const auto roll = [&] { return Roll(1 + random.below(6), 1 + random.below(6)); };
  Board board = starting_board();
  Roll now = roll();
  while (now.is_double()) now = roll();
  Side side = random.below(2) == 0 ? Side::light : Side::dark;
  std::vector<LegalPlay> plays;
  for (;; side = opponent(side), now = roll()) {
    legal_plays(board, side, now, plays);
    if (plays.empty()) continue;
    board = plays[players[side == Side::light ? 0 : 1]->best_play(plays, side)].after;
    if (has_won(board, side)) return side == Side::light ? points_of(board) : -points_of(board);
  }
}

}  // namespace

Duel play_duel(const judge::Evaluator& first, const judge::Evaluator& second, std::uint64_t pairs,
               std::uint64_t seed, unsigned threads) {
  std::vector<double> results(pairs);
  in_parallel(threads, pairs, [&](std::size_t i) {
    const std::uint64_t dice = seed * 1'000'003 + i;
    results[i] = (play_game({&first, &second}, dice) - play_game({&second, &first}, dice)) / 2.0;
  });
  double sum = 0;
  double squares = 0;
  for (const double result : results) {
    sum += result;
    squares += result * result;
  }
  const auto n = static_cast<double>(pairs);
  const double mean = sum / n;
  return {pairs, mean, std::sqrt((squares / n - mean * mean) / n)};
}

}  // namespace pointwright::train

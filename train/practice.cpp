#include "train/practice.hpp"

#include <algorithm>

namespace pointwright::train {
namespace {

using judge::Chances;

Chances mixed(float weight, const Chances& later, const Chances& now) {
  const auto mix = [&](float a, float b) { return weight * a + (1 - weight) * b; };
  return {mix(later.win, now.win), mix(later.win_gammon, now.win_gammon),
          mix(later.win_backgammon, now.win_backgammon), mix(later.lose_gammon, now.lose_gammon),
          mix(later.lose_backgammon, now.lose_backgammon)};
}

}  // namespace

std::optional<Visit> Practice::rehearsal() {
  if (static_cast<double>(random_() % 1000) >= 1000 * rehearsals_) return std::nullopt;
  const auto& known = remembered_[random_() % remembered_.size()];
  if (known.empty()) return std::nullopt;
  return known[random_() % known.size()];
}

void Practice::remember(const Game& game) {
  const Visit& visit = game.visits[random_() % game.visits.size()];
  auto& known = remembered_[static_cast<std::size_t>(kind_of(visit.board))];
  if (known.size() < most_remembered)
    known.push_back(visit);
  else
    known[random_() % known.size()] = visit;
}

void Practice::play_out(const judge::Evaluator& evaluator, std::vector<Lesson>& lessons) {
  Visit now = game_.last;
  for (judge::Evaluation value = game_.end; value.origin != judge::Origin::game_over;
       value = evaluator.evaluate(now.board, now.on_roll)) {
    lessons.push_back({now, value.chances});
    const Roll roll(1 + static_cast<int>(random_() % 6), 1 + static_cast<int>(random_() % 6));
    legal_plays(now.board, now.on_roll, roll, plays_);
    now = {plays_[evaluator.best_play(plays_, now.on_roll)].after, opponent(now.on_roll)};
  }
}

void Practice::fill(const judge::Evaluator& evaluator, float lambda, std::size_t count,
                    std::vector<Lesson>& lessons) {
  while (lessons.size() < count) {
    play_game(evaluator, how_, random_, game_, rehearsal());
    if (game_.visits.empty()) continue;
    ++games_;
    if (game_.end.chances.lose_gammon > 0.5F) ++gammons_;
    remember(game_);
    if (random_() % played_out_one_in == 0) play_out(evaluator, lessons);
    // Backwards: what comes after is known best.
    Chances target = game_.end.chances;
    for (std::size_t i = game_.visits.size(); i-- > 0;) {
      const Visit& visit = game_.visits[i];
      target = game_.better[i].value_or(target).reversed();
      lessons.push_back({visit, target});
      target = mixed(lambda, target, evaluator.evaluate(visit.board, visit.on_roll).chances);
    }
  }
  std::shuffle(lessons.begin(), lessons.end(), random_);
}

}  // namespace pointwright::train

#include "train/cube_check.hpp"

#include <algorithm>
#include <cmath>

#include "train/self_play.hpp"

namespace pointwright::train {
namespace {

/// What is known of two choices: whether the model's is the other one, and by how much it is worse.
struct Choice {
  bool first_is_best;
  double lead;  ///< of the first over the second, by the other half
};

double cost(const Choice& choice, bool takes_first) {
  if (choice.first_is_best == takes_first) return 0;
  return choice.first_is_best ? choice.lead : -choice.lead;
}

/// Doubling over holding, when the other side answers as `best` says it should.
double lead_of_doubling(const CubeAnswers::Half& best, const CubeAnswers::Half& measured) {
  return (best.take < 1 ? measured.take : 1.0) - measured.hold;
}

double model_worth(const CubeQuestion& question, CubeWorth worth, double life) {
  judge::CubeSituation situation = question.situation;
  situation.life = life;
  if (worth == CubeWorth::hold) return judge::cubeful_equity(question.chances, situation, false);
  situation.access = CubeAccess::theirs;
  return 2 * judge::cubeful_equity(question.chances, situation, false);
}

}  // namespace

std::vector<CubeQuestion> cube_questions(const judge::Evaluator& evaluator,
                                         const CubeCheckOptions& options) {
  judge::Search search(evaluator, {.cache_bits = 8});
  SelfPlay how;
  how.strange_starts = 0;
  std::vector<CubeQuestion> questions;
  Game game;
  for (std::uint64_t number = 0; questions.size() < options.positions; ++number) {
    std::mt19937_64 random(options.seed * 0x9E3779B97F4A7C15ULL + number);
    play_game(evaluator, how, random, game);
    // Beginning somewhere in the game, so that long stretches of a game do not count more.
    const std::size_t first = random() % std::max<std::size_t>(1, game.visits.size());
    for (std::size_t k = 0; k < game.visits.size(); ++k) {
      const Visit& visit = game.visits[(first + k) % game.visits.size()];
      if (!has_contact(visit.board)) continue;
      CubeQuestion question;
      question.board = visit.on_roll == Side::light ? visit.board : swapped(visit.board);
      question.situation.access =
          questions.size() % 2 == 0 ? CubeAccess::centred : CubeAccess::mine;
      question.chances = search.worth(question.board, Side::light, 1).chances;
      const judge::CubeDecision decision = judge::decide(question.chances, question.situation);
      if (decision.action_margin > options.near_action &&
          decision.reply_margin > options.near_reply)
        continue;
      questions.push_back(question);
      break;
    }
  }
  return questions;
}

CubeAnswers roll_out(const judge::Evaluator& evaluator, const CubeQuestion& question,
                     const CubeCheckOptions& options, std::uint64_t number) {
  enum Start : std::size_t { holding, taken };
  judge::CubeSituation doubled = question.situation;
  doubled.cube *= 2;
  doubled.access = CubeAccess::theirs;
  const std::uint64_t unit = question.situation.cube;
  const judge::RolloutStart hold{.board = question.board,
                                 .on_roll = Side::light,
                                 .cube = judge::RolloutCube{question.situation, false, unit}};
  const judge::RolloutStart take{.board = question.board,
                                 .on_roll = Side::light,
                                 .cube = judge::RolloutCube{doubled, false, unit}};
  judge::Rollout rollout(evaluator, {.seed = options.seed * 1'000'003 + number}, {hold, take},
                         Side::light);
  std::array<judge::Tally, 2> halves{judge::Tally(2), judge::Tally(2)};
  for (std::uint64_t block = 0; block * judge::trials_per_block < options.trials; ++block)
    rollout.add_block(block, halves[block % 2]);
  judge::Tally all = halves[0];
  all.merge(halves[1]);
  CubeAnswers answers;
  const auto half = [](const judge::Tally& tally) {
    return CubeAnswers::Half{tally.equity(holding), tally.equity(taken)};
  };
  answers.all = half(all);
  answers.halves = {half(halves[0]), half(halves[1])};
  answers.hold_error = all.error(holding);
  answers.take_error = all.error(taken);
  answers.lead_error = all.lead_error(holding, taken);
  return answers;
}

CubeCost cost_of(const CubeQuestion& question, const CubeAnswers& answers, double life) {
  judge::CubeSituation situation = question.situation;
  situation.life = life;
  const judge::CubeDecision decision = judge::decide(question.chances, situation);
  const bool doubles = decision.action == judge::CubeAction::offer;
  const bool drops = decision.reply == judge::CubeReply::drop;
  CubeCost result;
  for (std::size_t i = 0; i < 2; ++i) {
    const CubeAnswers::Half& best = answers.halves[i];
    const CubeAnswers::Half& measured = answers.halves[1 - i];
    result.action += cost({.first_is_best = lead_of_doubling(best, best) >= 0,
                           .lead = lead_of_doubling(best, measured)},
                          doubles) /
                     2;
    // The side that is asked loses what the other gains: dropping is worth 1 to the other.
    result.reply += cost({.first_is_best = best.take > 1, .lead = measured.take - 1}, drops) / 2;
  }
  result.same_action = doubles == (lead_of_doubling(answers.all, answers.all) >= 0);
  result.same_reply = drops == (answers.all.take > 1);
  return result;
}

FittedLife fitted_life(const std::vector<CubeQuestion>& questions,
                       const std::vector<CubeAnswers>& answers, CubeWorth worth) {
  // The model is a straight line in its life: dead + life * (live - dead).
  double xx = 0;
  double xy = 0;
  std::vector<std::array<double, 2>> points;
  for (std::size_t i = 0; i < questions.size(); ++i) {
    const double dead = model_worth(questions[i], worth, 0);
    const double live = model_worth(questions[i], worth, 1);
    const double found = worth == CubeWorth::hold ? answers[i].all.hold : answers[i].all.take;
    points.push_back({live - dead, found - dead});
    xx += (live - dead) * (live - dead);
    xy += (live - dead) * (found - dead);
  }
  FittedLife fitted;
  if (xx == 0) return fitted;
  fitted.life = xy / xx;
  double spread = 0;
  double squares = 0;
  for (const auto& [x, y] : points) {
    const double rest = y - fitted.life * x;
    spread += x * x * rest * rest;
    squares += rest * rest;
  }
  fitted.error = std::sqrt(spread) / xx;
  fitted.off = std::sqrt(squares / static_cast<double>(points.size()));
  return fitted;
}

}  // namespace pointwright::train

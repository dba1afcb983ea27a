#include "finder/judged_exercises.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <string_view>

#include "chance/rules_of_thumb.hpp"
#include "chance/two_sided.hpp"
#include "finder/games.hpp"
#include "rules/ruling_wording.hpp"

namespace pointwright::finder {
namespace {

using wording::sentence;

constexpr int depth = 2;
constexpr std::size_t most_wrong_plays = 3;

std::string as_code(const Play& play) {
  return "`" + to_text(play) + "`";
}

/// "0.12": points a game, in hundredths.
std::string points(double amount) {
  const long hundredths = std::lround(std::abs(amount) * 100);
  const std::string rest = std::to_string(hundredths % 100);
  return std::to_string(hundredths / 100) + (rest.size() < 2 ? ".0" : ".") + rest;
}

Exercise choice_on(const Board& board, Side side) {
  Exercise exercise;
  exercise.kind = Exercise::Kind::choice;
  exercise.position.board = board;
  exercise.position.turn = side;
  return exercise;
}

int checkers_of(const Board& board) {
  return in_play(board, Side::light) + in_play(board, Side::dark);
}

/// What can be said of a cube decision, in the order in which the answers are offered.
struct CubeAnswer {
  CubeAdvice advice;
  std::string_view claim;
  std::string_view says;  ///< % is the side on roll, & the other
};
constexpr std::array cube_answers{
    CubeAnswer{CubeAdvice::hold, "cube action hold", "% holds the cube."},
    CubeAnswer{CubeAdvice::offer_take, "cube action double take", "% doubles, and & takes."},
    CubeAnswer{CubeAdvice::offer_drop, "cube action double drop", "% doubles, and & drops."}};

std::string filled(std::string_view text, const SideNames& names, Side side) {
  std::string result;
  for (const char c : text) {
    if (c == '%') {
      result += names[side];
    } else if (c == '&') {
      result += names[opponent(side)];
    } else {
      result += c;
    }
  }
  return sentence(result);
}

}  // namespace

std::optional<Exercise> ask_best_play(const Finding& finding, Side side, const SideNames& names,
                                      judge::Search& search) {
  if (!finding.roll) return std::nullopt;
  const auto ranked = search.rank(finding.board, side, *finding.roll, depth);
  if (ranked.size() < 3) return std::nullopt;
  const judge::RankedPlay& best = ranked.front();
  std::vector<const judge::RankedPlay*> wrong;
  for (const judge::RankedPlay& play : ranked) {
    if (best.equity - play.equity >= least_judged_cost) wrong.push_back(&play);
  }
  if (wrong.size() < 2) return std::nullopt;
  std::vector<LegalPlay> plays;
  for (const judge::RankedPlay* play : wrong) plays.push_back(play->play);
  std::swap(wrong.front(), wrong[natural_play(plays, side)]);
  if (wrong.size() > most_wrong_plays) wrong.resize(most_wrong_plays);

  Exercise exercise = choice_on(finding.board, side);
  exercise.position.roll = finding.roll;
  exercise.ask = sentence(names[side] + " has rolled " + to_text(*finding.roll) +
                          ". Which of these plays is best?");
  exercise.claim = "costs 0 +- 0.05 with " + to_text(best.play.play);
  exercise.right.push_back({as_code(best.play.play), "No play was found to be better."});
  std::string costs;
  for (const judge::RankedPlay* play : wrong) {
    const std::string cost = points(static_cast<double>(best.equity - play->equity));
    exercise.wrong.push_back({as_code(play->play.play), "It costs " + cost + " points beside " +
                                                            as_code(best.play.play) +
                                                            ", as the nets estimate."});
    costs += (costs.empty() ? "" : ", ") + as_code(play->play.play) + " " + cost;
  }
  exercise.why = as_code(best.play.play) +
                 " is best, as a search two rolls ahead estimates. In points a game the others "
                 "cost: " +
                 costs + ".";
  // The closer the best of the wrong plays, the harder.
  const float lead = best.equity - wrong.front()->equity;
  exercise.measure =
      checkers_of(finding.board) +
      std::max(0, 40 - static_cast<int>(std::lround(100 * static_cast<double>(lead))));
  return exercise;
}

std::optional<Exercise> ask_cube(const Board& board, Side side, const SideNames& names) {
  constexpr double clear = 0.05;
  const BearoffFamily& family = small_races().family();
  const Camp& own = board.of(side);
  const Camp& other = board.of(opponent(side));
  if (!family.contains(own) || !family.contains(other)) return std::nullopt;
  const CubeValues values = small_races().values(family.rank(own), family.rank(other));
  if (values.win < least_chance) return std::nullopt;  // nobody would think of doubling
  const CubeAdvice advice = exact_advice(values, false);
  Exercise exercise = choice_on(board, side);
  double nearest = 9;
  for (const CubeAnswer& answer : cube_answers) {
    const std::string text = filled(answer.says, names, side);
    if (answer.advice == advice) {
      exercise.claim = answer.claim;
      exercise.right.push_back({text, "So it is, exactly."});
      continue;
    }
    const double cost = cost_of(answer.advice, values, false);
    nearest = std::min(nearest, cost);
    exercise.wrong.push_back(
        {text, "That costs " + points(cost) +
                   " times the cube, both sides' mistakes together, by the exact tables."});
  }
  if (nearest < clear) return std::nullopt;
  exercise.ask = sentence("the cube is in the middle, and " + names[side] +
                          " is to roll, for points. What is right?");
  exercise.why =
      sentence(names[side] + " wins " + std::to_string(std::lround(100 * values.win)) +
               " games of 100. In units of the cube, holding it is worth " +
               (values.hold_centred < 0 ? "-" : "+") + points(values.hold_centred) + " to " +
               names[side] + ", doubling " + (values.offered_and_taken() < 0 ? "-" : "+") +
               points(values.offered_and_taken()) + " if " + names[opponent(side)] +
               " takes and +1 if it drops, exactly.");
  exercise.measure =
      2 * checkers_of(board) + std::max(0, 40 - static_cast<int>(std::lround(100 * nearest)));
  return exercise;
}

Board random_cube_race(Random& random) {
  Board board;
  for (const Side side : {Side::light, Side::dark}) {
    const int left = 3 + random.below(4);
    Camp& camp = board.of(side);
    camp[off_place] = static_cast<std::uint8_t>(checkers_per_side - left);
    for (int i = 0; i < left; ++i) ++camp[1 + static_cast<std::size_t>(random.below(6))];
  }
  return board;
}

}  // namespace pointwright::finder

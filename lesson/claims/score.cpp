#include "rules/score.hpp"

#include <fmt/format.h>

#include <array>

#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::array<std::string_view, 3> forms{"score after SIDE wins N: L-D",
                                                "score after SIDE wins N: L-D crawford",
                                                "score after SIDE wins N: L-D match over"};

Answer check(const Ask& ask) {
  const auto& before = ask.position().match;
  if (!before) {
    return Unanswerable{"the board belongs to no match",
                        "add the score to the board: match to 5 score 2-3"};
  }
  if (match_over(*before)) return Unanswerable{"the match is over already", ""};
  const Side winner = ask.side("SIDE");
  const auto points = static_cast<std::uint64_t>(ask.number("N"));
  const MatchScore now = after_game(*before, winner, points);
  const bool over = match_over(now);

  std::string sentence =
      fmt::format("If {} wins {}, the score is {}-{}", ask.names()[winner],
                  counted(ask.number("N"), "point"), now.points[0], now.points[1]);
  sentence += over           ? " and the match is over."
              : now.crawford ? " and the next game is the Crawford game."
                             : ".";
  const std::string proof = explain(*before, winner, points, ask.names());

  const Pair claimed = ask.pair("L-D");
  const bool same = claimed.first == now.points[0] && claimed.second == now.points[1];
  const bool fits = ask.form() == 0 || (ask.form() == 1 ? now.crawford && !over : over);
  if (same && fits) return Proved{sentence, proof};
  const std::string_view tail = over ? " match over" : now.crawford ? " crawford" : "";
  return Refuted{sentence, proof, same ? "" : "L-D",
                 fmt::format("score after {} wins {}: {}-{}{}", name(winner), points, now.points[0],
                             now.points[1], ask.form() == 0 ? "" : tail)};
}

}  // namespace

const ClaimKind score_claim{
    .name = "score",
    .forms = forms,
    .says =
        "The score of the match if the side wins N points in this game, light's first. "
        "`crawford` adds that the next game is the Crawford game, `match over` that there is "
        "none.",
    .example_board = "start; match to 5 score 2-3",
    .example = "score after light wins 2: 4-3 crawford",
    .counterexample = "score after light wins 2: 5-3 match over",
    .check = check,
};

}  // namespace pointwright::lesson

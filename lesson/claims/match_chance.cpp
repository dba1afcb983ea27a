#include <fmt/format.h>

#include <array>
#include <cmath>

#include "chance/match_cube.hpp"
#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"

namespace pointwright::lesson {
namespace {

using chance::MatchTable;
using chance::Needs;

constexpr std::array<std::string_view, 1> match_forms{"match chance SIDE PERCENT"};
constexpr std::array<std::string_view, 2> take_forms{"take point SIDE PERCENT",
                                                     "live take point SIDE PERCENT"};

constexpr std::string_view model_note =
    "The match table is the computed one of docs/match-table.md.";

/// What the side needs, if the position has a match that the table covers.
std::optional<Needs> covered_needs(const Ask& ask, Side side) {
  const auto& match = ask.position().match;
  if (!match) return std::nullopt;
  const Needs needs = chance::needs(*match, side);
  if (std::max(needs.mine, needs.theirs) > chance::standard_match_table().size())
    return std::nullopt;
  return needs;
}

Answer no_match() {
  return Unanswerable{"the board has no match score, or one beyond 25 points",
                      "add it to the position: match to 7 score 3-5"};
}

Answer check_match(const Ask& ask) {
  const Side side = ask.side("SIDE");
  const auto needs = covered_needs(ask, side);
  if (!needs) return no_match();
  const double chance = chance::chance_after(chance::standard_match_table(), *needs, 0, 0);
  const std::string sentence =
      fmt::format("{} wins the match with chance {:.1f}%, all else being equal.", Name(ask, side),
                  100 * chance);
  const std::string proof = fmt::format(
      "{} needs {} and the other side {}{}. {}", Name(ask, side), counted(needs->mine, "point"),
      needs->theirs, needs->after_crawford ? ", after the Crawford game" : "", model_note);
  return judged(ask, "PERCENT", chance, sentence, proof,
                fmt::format("match chance {} {:.1f}% +- 0.1", name(side), 100 * chance));
}

Answer check_take_point(const Ask& ask) {
  const Side side = ask.side("SIDE");
  const auto needs = covered_needs(ask, side);
  if (!needs) return no_match();
  const auto decision =
      chance::decide_at_score(chance::standard_match_table(), *needs, ask.position().cube.value);
  const bool live = ask.form() == 1;
  const double point = live ? decision.live_take_point : decision.dead_take_point;
  const std::string sentence = fmt::format(
      "{} may take a double to {} with {:.1f}% of the games{}.", Name(ask, side), 2 * decision.cube,
      100 * point, live ? ", if it can use the cube to the full" : ", gammons and recubes aside");
  const std::string proof =
      fmt::format("{} {}", capitalised(chance::take_point_sum(decision, *needs, ask.names(), side)),
                  model_note);
  return judged(
      ask, "PERCENT", point, sentence, proof,
      fmt::format("{}take point {} {:.1f}% +- 0.1", live ? "live " : "", name(side), 100 * point));
}

}  // namespace

const ClaimKind match_chance_claim{
    .name = "match-chance",
    .forms = match_forms,
    .says =
        "The side's chance of winning the match at this score, before a level game, by the "
        "computed match table.",
    .example_board = "start; match to 7 score 5-3",
    .example = "match chance light 67.9% +- 0.1",
    .counterexample = "match chance light 60% +- 1",
    .check = check_match,
};

const ClaimKind take_point_claim{
    .name = "take-point",
    .forms = take_forms,
    .says =
        "The chance of winning the game with which the side may just take a double at this "
        "score and cube, gammons aside: with a cube that it will never turn, or `live`.",
    .example_board = "start; match to 7 score 5-5",
    .example = "take point dark 30.3% +- 0.1",
    .counterexample = "take point dark 25% +- 1",
    .check = check_take_point,
};

}  // namespace pointwright::lesson

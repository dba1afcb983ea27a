#include <fmt/format.h>

#include <array>

#include "chance/blackboard.hpp"
#include "chance/match_cube.hpp"
#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::array<std::string_view, 1> match_forms{"match chance SIDE PERCENT"};

Answer no_match() {
  return Unanswerable{"the board has no match score, or one beyond 25 points",
                      "add it to the position: match to 7 score 3-5"};
}

Answer check_match(const Ask& ask) {
  const Side side = ask.side("SIDE");
  const auto& match = ask.position().match;
  if (!match) return no_match();
  const chance::Needs needs = chance::needs(*match, side);
  if (!covered_by_table(needs)) return no_match();
  const double chance = chance::chance_after(chance::standard_match_table(), needs, 0, 0);
  const std::string percent = chance::percent_text(chance);
  const std::string sentence = fmt::format(
      "{} wins the match with chance {}, all else being equal.", Name(ask, side), percent);
  const std::string proof = fmt::format(
      "{} needs {} and the other side {}{}. {}", Name(ask, side), counted(needs.mine, "point"),
      needs.theirs, needs.after_crawford ? ", after the Crawford game" : "", match_model_note);
  return judged(ask, "PERCENT", chance, sentence, proof,
                fmt::format("match chance {} {} +- 0.1", name(side), percent));
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

}  // namespace pointwright::lesson

#include "chance/race.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::array<std::string_view, 1> mean_forms{"mean rolls SIDE VALUE"};
constexpr std::array<std::string_view, 1> effective_forms{"effective pips SIDE VALUE"};
constexpr std::array<std::string_view, 1> chance_forms{"race chance SIDE PERCENT"};

Answer no_answer(std::string_view reason) {
  return Unanswerable{std::string(reason),
                      "exact numbers of a race need both sides past each other; see "
                      "docs/endings.md"};
}

std::optional<RaceSide> side_of(const Ask& ask) {
  return race_side(ask.position().board.of(ask.side("SIDE")));
}

std::string mean_proof(const Ask& ask, const RaceSide& side) {
  return fmt::format(
      "{} has {} and needs {:.4f} rolls on average, each roll played for that "
      "average; times 49/6 that is {:.3f} pips, of which {:.3f} are wastage. From "
      "the table of one side alone.",
      Name(ask, ask.side("SIDE")), counted(side.pips, "pip"), side.mean_rolls, side.effective_pips,
      side.wastage);
}

Answer check_mean(const Ask& ask) {
  const auto side = side_of(ask);
  if (!side) return no_answer(explain(NoRace::too_far));
  return judged(
      ask, "VALUE", side->mean_rolls,
      fmt::format("{} needs {:.4f} rolls on average to bear off alone.",
                  Name(ask, ask.side("SIDE")), side->mean_rolls),
      mean_proof(ask, *side),
      fmt::format("mean rolls {} {:.2f} +- 0.01", name(ask.side("SIDE")), side->mean_rolls));
}

Answer check_effective(const Ask& ask) {
  const auto side = side_of(ask);
  if (!side) return no_answer(explain(NoRace::too_far));
  return judged(
      ask, "VALUE", side->effective_pips,
      fmt::format("{} has an effective pip count of {:.3f}.", Name(ask, ask.side("SIDE")),
                  side->effective_pips),
      mean_proof(ask, *side),
      fmt::format("effective pips {} {:.1f} +- 0.1", name(ask.side("SIDE")), side->effective_pips));
}

/// How an answer about a race is known, in sentences.
std::string how(const Certainty& known) {
  std::string reason = capitalised(std::string(known.reason)) + ".";
  if (known.kind == Certainty::Kind::exact) return reason;
  return fmt::format("{} That error is at most {:.1f}%.", reason, 100 * known.error);
}

Answer check_chance(const Ask& ask) {
  const auto race = race_answer(ask.position().board, ask.side());
  if (!race) return no_answer(explain(race.error()));
  const Side side = ask.side("SIDE");
  const double chance = side == ask.side() ? race->win : 1 - race->win;
  const Stated& stated = ask.stated("PERCENT");
  const double distance = std::abs(chance - stated.value);
  const bool exact = race->win_known.kind == Certainty::Kind::exact;
  if (!exact && distance <= stated.tolerance + race->win_known.error &&
      distance + race->win_known.error > stated.tolerance) {
    return Unanswerable{
        fmt::format("this cannot be settled: the chance is {:.1f}% by convolution, and that may be "
                    "off by {:.1f}%",
                    100 * chance, 100 * race->win_known.error),
        fmt::format("state a tolerance above {:.1f}%", 100 * (distance + race->win_known.error))};
  }
  const double least_tolerance = exact ? 0.001 : race->win_known.error + 0.001;
  return judged(
      ask, "PERCENT", chance,
      fmt::format("{} wins this race with chance {:.2f}%, without a cube.", Name(ask, side),
                  100 * chance),
      fmt::format("{} is on roll with {} against {}. {}", Name(ask, ask.side()),
                  counted(race->on_roll.pips, "pip"), race->waiting.pips, how(race->win_known)),
      fmt::format("race chance {} {:.1f}% +- {:.1f}", name(side), 100 * chance,
                  100 * least_tolerance));
}

}  // namespace

const ClaimKind mean_rolls_claim{
    .name = "mean-rolls",
    .forms = mean_forms,
    .says = "The average number of rolls in which the side bears off alone.",
    .example_board = "light 6x1 5x1; dark 6x2; light to roll",
    .example = "mean rolls light 1.9 +- 0.1",
    .counterexample = "mean rolls light 2.5 +- 0.1",
    .check = check_mean,
};

const ClaimKind effective_pips_claim{
    .name = "effective-pips",
    .forms = effective_forms,
    .says = "The side's effective pip count: mean rolls times 49/6, the pips of an average roll.",
    .example_board = "light 1x10; dark 6x2; light to roll",
    .example = "effective pips light 36 +- 1",
    .counterexample = "effective pips light 10",
    .check = check_effective,
};

const ClaimKind race_chance_claim{
    .name = "race-chance",
    .forms = chance_forms,
    .says =
        "The side's chance of winning the race without a cube. Exact at home with up to six "
        "checkers a side; beyond that the answer has an error, which the tolerance must cover.",
    .needs = ClaimKind::Needs::turn,
    .example_board = "light 6x1 5x1; dark 1x2; light to roll",
    .example = "race chance light 16.7% +- 0.1",
    .counterexample = "race chance light 25% +- 1",
    .check = check_chance,
};

}  // namespace pointwright::lesson

#include "chance/race.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "chance/rules_of_thumb.hpp"
#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::array<std::string_view, 1> mean_forms{"mean rolls SIDE VALUE"};
constexpr std::array<std::string_view, 1> effective_forms{"effective pips SIDE VALUE"};
constexpr std::array<std::string_view, 1> chance_forms{"race chance SIDE PERCENT"};
constexpr std::array<std::string_view, 1> equity_forms{"equity SIDE VALUE"};
constexpr std::array<std::string_view, 3> action_forms{
    "cube action hold", "cube action double take", "cube action double drop"};

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
  const std::string reason = capitalised(std::string(known.reason)) + ".";
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

/// Who may turn the cube of the position, seen by the side on roll.
CubeAccess access(const Ask& ask) {
  const Position& position = ask.position();
  if (!position.house.cube) return CubeAccess::none;
  if (!position.cube.holder) return CubeAccess::centred;
  return *position.cube.holder == ask.side() ? CubeAccess::mine : CubeAccess::theirs;
}

/// The values with the cube, if the tables of both sides cover the race and it is for points.
std::variant<CubeValues, Unanswerable> values_of(const Ask& ask) {
  if (ask.position().match)
    return Unanswerable{"equities and cube actions are known exactly in games for points only",
                        "leave the match out of the position"};
  const auto race = race_answer(ask.position().board, ask.side());
  if (!race) return std::get<Unanswerable>(no_answer(explain(race.error())));
  if (!race->cube)
    return Unanswerable{"the tables with a cube hold up to six checkers a side, all at home",
                        "state the chance of winning instead: race chance light 71% +- 3"};
  return *race->cube;
}

std::string cube_sum(const CubeValues& values, CubeAccess access) {
  return fmt::format(
      "Holding is worth {:+.4f} times the cube, offering {:+.4f}: {:+.4f} if taken, "
      "+1 if dropped. Exact, from the tables of both sides.",
      values.hold(access), values.offered(), values.offered_and_taken());
}

Answer check_equity(const Ask& ask) {
  const auto found = values_of(ask);
  if (const auto* none = std::get_if<Unanswerable>(&found)) return *none;
  const CubeValues& values = std::get<CubeValues>(found);
  const CubeAccess whose = access(ask);
  const Side side = ask.side("SIDE");
  const double equity = (side == ask.side() ? 1 : -1) * values.equity(whose);
  const bool may_offer = whose == CubeAccess::centred || whose == CubeAccess::mine;
  return judged(
      ask, "VALUE", equity,
      fmt::format("The position is worth {:+.4f} times the cube to {}.", equity, ask.names()[side]),
      may_offer ? cube_sum(values, whose)
                : "Exact, from the tables of both sides; the side on roll may not double.",
      fmt::format("equity {} {:.3f} +- 0.001", name(side), equity));
}

Answer check_action(const Ask& ask) {
  const auto found = values_of(ask);
  if (const auto* none = std::get_if<Unanswerable>(&found)) return *none;
  const CubeValues& values = std::get<CubeValues>(found);
  const CubeAccess whose = access(ask);
  if (whose != CubeAccess::centred && whose != CubeAccess::mine)
    return Unanswerable{fmt::format("{} may not turn the cube here", ask.names()[ask.side()]),
                        "set the cube in the middle, or with the side on roll"};
  constexpr std::array<CubeAdvice, 3> actions{CubeAdvice::hold, CubeAdvice::offer_take,
                                              CubeAdvice::offer_drop};
  constexpr std::array<std::string_view, 3> sentences{
      "{} should hold the cube.", "{} should double, and the other side should take.",
      "{} should double, and the other side should drop."};
  const CubeAdvice right = exact_advice(values, whose == CubeAccess::mine);
  const auto form =
      static_cast<std::size_t>(std::find(actions.begin(), actions.end(), right) - actions.begin());
  const std::string sentence = fmt::format(fmt::runtime(sentences[form]), Name(ask, ask.side()));
  if (form == ask.form()) return Proved{sentence, cube_sum(values, whose)};
  return Refuted{sentence, cube_sum(values, whose), {}, std::string(action_forms[form])};
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

const ClaimKind equity_claim{
    .name = "equity",
    .forms = equity_forms,
    .says =
        "What the position is worth to the side, in units of the cube, in a game for points "
        "with the cube where it stands and best play by both.",
    .needs = ClaimKind::Needs::turn,
    .example_board = "light 5x1 2x1; dark 4x1 1x1; light to roll; cube 2 with light",
    .example = "equity light 0.24 +- 0.01",
    .counterexample = "equity light 0.11 +- 0.01",
    .check = check_equity,
};

const ClaimKind cube_action_claim{
    .name = "cube-action",
    .forms = action_forms,
    .says =
        "What the side on roll should do about the cube, and the other side if it is offered, "
        "in a game for points.",
    .needs = ClaimKind::Needs::turn,
    .example_board = "light 5x1 2x1; dark 4x1 1x1; light to roll; cube 2 with light",
    .example = "cube action hold",
    .counterexample = "cube action double take",
    .check = check_action,
};

}  // namespace pointwright::lesson

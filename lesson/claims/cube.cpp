#include "rules/cube.hpp"

#include <fmt/format.h>

#include <array>

#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::array<std::string_view, 1> may_forms{"SIDE may double"};
constexpr std::array<std::string_view, 1> may_not_forms{"SIDE may not double because RULE"};
constexpr std::array<std::string_view, 1> take_forms{"SIDE may take for V"};
constexpr std::array<std::string_view, 1> drop_forms{"SIDE drops for N"};

/// The claim that is true of an offer, as an author would write it; empty when no rule decides.
std::string claim_of(const CubeRuling& ruling, Side side) {
  if (ruling.allowed) return fmt::format("{} may double", name(side));
  if (ruling.rule == nullptr) return {};
  return fmt::format("{} may not double because {}", name(side), ruling.rule->id);
}

std::string sentence_of(const Ask& ask, const CubeRuling& ruling, Side side) {
  if (ruling.allowed) return fmt::format("{} may offer the cube now.", Name(ask, side));
  return fmt::format("{} may not offer the cube now. {}", Name(ask, side),
                     ruling.rule == nullptr ? "" : ruling.rule->statement);
}

Answer check_may(const Ask& ask) {
  const Side side = ask.side("SIDE");
  const CubeRuling ruling = may_offer(ask.position(), side, ask.names());
  if (ruling.allowed) return Proved{sentence_of(ask, ruling, side), ruling.proof};
  return Refuted{sentence_of(ask, ruling, side), ruling.proof, "", claim_of(ruling, side)};
}

Answer check_may_not(const Ask& ask) {
  const Side side = ask.side("SIDE");
  const CubeRuling ruling = may_offer(ask.position(), side, ask.names());
  if (!ruling.allowed && ruling.rule == nullptr)
    return Unanswerable{ruling.proof, "use a smaller cube"};
  if (ruling.rule == &ask.rule("RULE")) return Proved{sentence_of(ask, ruling, side), ruling.proof};
  return Refuted{sentence_of(ask, ruling, side), ruling.proof, ruling.allowed ? "" : "RULE",
                 claim_of(ruling, side)};
}

/// Why there is no offer that a side could answer.
Refuted no_offer(const Ask& ask, Side offers, const CubeRuling& ruling) {
  return {sentence_of(ask, ruling, offers), ruling.proof, "", claim_of(ruling, offers)};
}

Answer check_take(const Ask& ask) {
  const Side side = ask.side("SIDE");
  const CubeRuling ruling = may_offer(ask.position(), opponent(side), ask.names());
  if (!ruling.allowed) return no_offer(ask, opponent(side), ruling);
  const auto taken = after_take(ask.position(), ask.names());
  if (!taken) return Unanswerable{taken.error().proof, ""};
  const std::uint64_t value = taken->cube.value;
  const std::string sentence = fmt::format("If {} doubles, {} may take and holds the cube at {}.",
                                           ask.names()[opponent(side)], ask.names()[side], value);
  const std::string proof = fmt::format(
      "{} The cube stands at {}, so it is offered at {}, and the side that takes holds it.",
      ruling.proof, ask.position().cube.value, value);
  if (value == static_cast<std::uint64_t>(ask.number("V"))) return Proved{sentence, proof};
  return Refuted{sentence, proof, "V", fmt::format("{} may take for {}", name(side), value)};
}

Answer check_drop(const Ask& ask) {
  const Side side = ask.side("SIDE");
  const CubeRuling ruling = may_offer(ask.position(), opponent(side), ask.names());
  if (!ruling.allowed) return no_offer(ask, opponent(side), ruling);
  const auto dropped = after_drop(ask.position(), ask.names());
  if (!dropped) return Unanswerable{dropped.error().proof, ""};
  const std::string sentence = fmt::format(
      "If {} doubles and {} drops, {} wins {}.", ask.names()[opponent(side)], ask.names()[side],
      ask.names()[opponent(side)], counted(static_cast<std::int64_t>(dropped->points), "point"));
  const std::string proof = explain(*dropped, ask.position(), ask.names());
  if (dropped->points == static_cast<std::uint64_t>(ask.number("N")))
    return Proved{sentence, proof};
  return Refuted{sentence, proof, "N", fmt::format("{} drops for {}", name(side), dropped->points)};
}

}  // namespace

const ClaimKind may_double_claim{
    .name = "may-double",
    .forms = may_forms,
    .says = "The side may offer the cube now.",
    .example_board = "start; light to roll",
    .example = "light may double",
    .counterexample = "dark may double",
    .check = check_may,
};

const ClaimKind may_not_double_claim{
    .name = "may-not-double",
    .forms = may_not_forms,
    .says = "The side may not offer the cube now, and this rule decides.",
    .example_board = "start; light to roll; cube 2 with dark",
    .example = "light may not double because cube-holder",
    .counterexample = "light may not double because crawford",
    .check = check_may_not,
};

const ClaimKind may_take_claim{
    .name = "may-take",
    .forms = take_forms,
    .says =
        "The other side may double now, and if it does the side may take; the cube then stands "
        "at V.",
    .example_board = "start; light to roll",
    .example = "dark may take for 2",
    .counterexample = "dark may take for 4",
    .check = check_take,
};

const ClaimKind drops_claim{
    .name = "drops",
    .forms = drop_forms,
    .says = "The other side may double now, and if the side drops it loses N points.",
    .example_board = "start; light to roll; cube 2 with light",
    .example = "dark drops for 2",
    .counterexample = "dark drops for 4",
    .check = check_drop,
};

}  // namespace pointwright::lesson

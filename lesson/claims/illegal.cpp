#include <fmt/format.h>

#include <array>

#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::array<std::string_view, 1> forms{"illegal PLAY because RULE"};

Answer check(const Ask& ask) {
  const Ruling ruling = rule_on(ask.position(), ask.play("PLAY"), ask.names());
  const std::string& play = ask.text("PLAY");
  const std::string roll = to_text(ask.roll());
  if (ruling.allowed) {
    return Refuted{
        fmt::format("{} may play {} with {}.", Name(ask, ask.side()), to_text(ruling.play), roll),
        ruling.proof, "PLAY", "legal " + play};
  }
  if (ruling.rule != &ask.rule("RULE")) {
    if (ruling.rule == nullptr) return Unanswerable{ruling.proof, "write the play in full"};
    return Refuted{
        fmt::format("{} is refused by {}: {}", play, ruling.rule->id, ruling.rule->statement),
        ruling.proof, "RULE", fmt::format("illegal {} because {}", play, ruling.rule->id)};
  }
  return Proved{fmt::format("{} may not play {} with {}. {}", Name(ask, ask.side()), play, roll,
                            ruling.rule->statement),
                ruling.proof};
}

}  // namespace

const ClaimKind illegal_claim{
    .name = "illegal",
    .forms = forms,
    .says =
        "The play is refused, and this rule decides. The rules have their names in the rule "
        "book.",
    .needs = ClaimKind::Needs::roll,
    .example_board = "light barx1 13x5 8x3 6x6; dark 24x2 13x5 8x3 6x5; light to play 3-1",
    .example = "illegal 8/7 6/3 because bar-first",
    .counterexample = "illegal 8/7 6/3 because blocked-point",
    .check = check,
};

}  // namespace pointwright::lesson

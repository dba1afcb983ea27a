#include <fmt/format.h>

#include <array>

#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::array<std::string_view, 1> forms{"legal PLAY"};

Answer check(const Ask& ask) {
  const Ruling ruling = rule_on(ask.position(), ask.play("PLAY"), ask.names());
  const std::string roll = to_text(ask.roll());
  if (ruling.allowed) {
    return Proved{
        fmt::format("{} may play {} with {}.", Name(ask, ask.side()), to_text(ruling.play), roll),
        ruling.proof};
  }
  std::string correction;
  if (ruling.rule != nullptr)
    correction = fmt::format("illegal {} because {}", ask.text("PLAY"), ruling.rule->id);
  return Refuted{
      fmt::format("{} may not play {} with {}. {}", Name(ask, ask.side()), ask.text("PLAY"), roll,
                  ruling.rule == nullptr ? "" : ruling.rule->statement),
      ruling.proof, "PLAY", correction};
}

}  // namespace

const ClaimKind legal_claim{
    .name = "legal",
    .forms = forms,
    .says = "The play is allowed.",
    .needs = ClaimKind::Needs::roll,
    .example_board = "light barx1 13x5 8x3 6x6; dark 24x2 13x5 8x3 6x5; light to play 3-1",
    .example = "legal bar/22 6/5",
    .counterexample = "legal 8/7 6/3",
    .check = check,
};

}  // namespace pointwright::lesson

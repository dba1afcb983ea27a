#include <fmt/format.h>

#include <array>

#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::array<std::string_view, 1> forms{"forced PLAY"};

Answer check(const Ask& ask) {
  const std::vector<LegalPlay> plays = plays_of(ask);
  const std::string roll = to_text(ask.roll());
  const std::string who = Name(ask, ask.side());
  if (plays.empty()) {
    return Refuted{fmt::format("{} cannot move at all with {}.", who, roll),
                   explain_obligation(ask.position(), ask.names()), "PLAY", "no play"};
  }
  if (plays.size() > 1) {
    return Refuted{
        fmt::format("With {} {} has {}: {}.", roll, ask.names()[ask.side()],
                    counted(static_cast<std::int64_t>(plays.size()), "legal play"), list_of(plays)),
        explain_obligation(ask.position(), ask.names()), "PLAY",
        fmt::format("plays {}", plays.size())};
  }
  const Ruling ruling = rule_on(ask.position(), ask.play("PLAY"), ask.names());
  const std::string only = to_text(plays.front().play);
  if (!ruling.allowed) {
    return Refuted{fmt::format("The only legal play is {}.", only), ruling.proof, "PLAY",
                   "forced " + only};
  }
  return Proved{
      fmt::format("With {} {} has one legal play: {}.", roll, ask.names()[ask.side()], only),
      explain_obligation(ask.position(), ask.names())};
}

}  // namespace

const ClaimKind forced_claim{
    .name = "forced",
    .forms = forms,
    .says = "This is the only legal play. Plays that lead to the same board count as one.",
    .needs = ClaimKind::Needs::roll,
    .example_board = "light barx1 6x2; dark 6x2 5x2 4x2 1x2; light to play 3-1",
    .example = "forced bar/22 6/5",
    .counterexample = "forced bar/24 6/3",
    .check = check,
};

}  // namespace pointwright::lesson

#include <fmt/format.h>

#include <array>

#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::array<std::string_view, 1> forms{"plays N"};

Answer check(const Ask& ask) {
  const std::vector<LegalPlay> plays = plays_of(ask);
  const auto n = static_cast<std::int64_t>(plays.size());
  const std::string sentence =
      fmt::format("With {} {} has {}.", to_text(ask.roll()), ask.names()[ask.side()],
                  n == 0 ? "no legal play" : counted(n, "legal play"));
  const std::string proof = n == 0 ? explain_obligation(ask.position(), ask.names())
                            : n == 1
                                ? fmt::format("It is {}.", list_of(plays))
                                : fmt::format("They lead to different boards: {}.", list_of(plays));
  if (n == ask.number("N")) return Proved{sentence, proof};
  return Refuted{sentence, proof, "N", fmt::format("plays {}", n)};
}

}  // namespace

const ClaimKind plays_claim{
    .name = "plays",
    .forms = forms,
    .says = "The roll has N legal plays. Plays that lead to the same board count as one.",
    .needs = ClaimKind::Needs::roll,
    .example_board = "light barx1 6x2; dark 6x2 5x2 4x2 1x2; light to play 3-1",
    .example = "plays 1",
    .counterexample = "plays 2",
    .check = check,
};

}  // namespace pointwright::lesson

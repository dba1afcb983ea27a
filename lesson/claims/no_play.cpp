#include <fmt/format.h>

#include <array>

#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::array<std::string_view, 1> forms{"no play"};

Answer check(const Ask& ask) {
  const std::vector<LegalPlay> plays = plays_of(ask);
  const std::string proof = explain_obligation(ask.position(), ask.names());
  if (plays.empty()) {
    return Proved{
        fmt::format("{} has no legal move with {}.", Name(ask, ask.side()), to_text(ask.roll())),
        proof};
  }
  return Refuted{fmt::format("With {} {} may play {}.", to_text(ask.roll()),
                             ask.names()[ask.side()], list_of(plays)),
                 proof, "",
                 plays.size() == 1 ? "forced " + to_text(plays.front().play)
                                   : fmt::format("plays {}", plays.size())};
}

}  // namespace

const ClaimKind no_play_claim{
    .name = "no-play",
    .forms = forms,
    .says = "No move is legal.",
    .needs = ClaimKind::Needs::roll,
    .example_board = "light barx1 6x2; dark 6x2 5x2 4x2 2x2; light to play 6-5",
    .example = "no play",
    .counterexample = "with 3-1: no play",
    .check = check,
};

}  // namespace pointwright::lesson

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::array<std::string_view, 1> forms{"hits N with PLAY"};

Answer check(const Ask& ask) {
  const Ruling ruling = rule_on(ask.position(), ask.play("PLAY"), ask.names());
  if (!ruling.allowed) {
    return Refuted{
        fmt::format("{} may not be played with {}.", ask.text("PLAY"), to_text(ask.roll())),
        ruling.proof, "PLAY",
        ruling.rule == nullptr
            ? std::string()
            : fmt::format("illegal {} because {}", ask.text("PLAY"), ruling.rule->id)};
  }
  const Side other = opponent(ask.side());
  const auto hits = std::ranges::count_if(ruling.play, [](const Move& move) { return move.hit; });
  std::vector<std::string> places;
  for (const Move& move : ruling.play) {
    if (move.hit) places.push_back(fmt::format("{}", static_cast<int>(move.to)));
  }
  const std::string sentence =
      fmt::format("{} with {} hits {}.", to_text(ruling.play), to_text(ask.roll()),
                  hits == 0 ? "nothing" : counted(hits, "blot") + " of " + ask.names()[other]);
  const std::string proof =
      hits == 0 ? fmt::format("No single checker of {} stands where a move of this play ends.",
                              ask.names()[other])
                : fmt::format("A single checker of {} stood on {}'s {}.", ask.names()[other],
                              ask.names()[ask.side()], listed(places));
  if (hits == ask.number("N")) return Proved{sentence, proof};
  return Refuted{sentence, proof, "N", fmt::format("hits {} with {}", hits, ask.text("PLAY"))};
}

}  // namespace

const ClaimKind hits_claim{
    .name = "hits",
    .forms = forms,
    .says = "The play is allowed and hits N blots.",
    .needs = ClaimKind::Needs::roll,
    .example_board = "light 13x1 8x1 6x2; dark 18x1 6x3 4x2; light to play 6-1",
    .example = "hits 1 with 13/7* 8/7",
    .counterexample = "hits 2 with 13/7* 8/7",
    .check = check,
};

}  // namespace pointwright::lesson

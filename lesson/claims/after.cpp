#include <fmt/format.h>

#include <array>

#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::array<std::string_view, 1> forms{"after PLAY: BOARD"};

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
  const std::string board = to_text(ruling.after);
  const std::string sentence =
      fmt::format("After {} the checkers stand so: {}.", to_text(ruling.play), board);
  if (ruling.after == ask.board("BOARD")) return Proved{sentence, ruling.proof};
  return Refuted{sentence, ruling.proof, "BOARD",
                 fmt::format("after {}: {}", ask.text("PLAY"), board)};
}

}  // namespace

const ClaimKind after_claim{
    .name = "after",
    .forms = forms,
    .says = "The play is allowed and leads to this board.",
    .needs = ClaimKind::Needs::roll,
    .example_board = "light 8x1 6x1; dark 6x2 5x2; light to play 2-1",
    .example = "after 8/5: light 6x1 5x1; dark 6x2 5x2",
    .counterexample = "after 8/5: light 6x1 4x1; dark 6x2 5x2",
    .check = check,
};

}  // namespace pointwright::lesson

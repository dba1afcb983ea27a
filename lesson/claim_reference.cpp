#include <fmt/format.h>

#include "lesson/claim.hpp"
#include "lesson/lesson.hpp"

namespace pointwright::lesson {
namespace {

std::string_view needs_of(const ClaimKind& kind) {
  switch (kind.needs) {
    case ClaimKind::Needs::board:
      return "a board";
    case ClaimKind::Needs::turn:
      return "a board with a side to roll";
    case ClaimKind::Needs::roll:
      return "a board with a roll, or `with D-D:` before the claim";
  }
  return {};
}

/// What the compiler answers to one claim about one board.
Compilation answer(std::string_view board, std::string_view claim) {
  const std::string lesson = fmt::format(
      "---\ntitle: Example\n---\n```board example\n{}\n```\n```claims\n{}\n```\n", board, claim);
  const Host host{[&](const std::string&) -> Result<std::string, ReadFailure> { return lesson; }};
  return compile_lesson(host, "example.md");
}

std::string section(const ClaimKind& kind) {
  std::string text = fmt::format("\n## {}\n\n", kind.name);
  for (const std::string_view form : kind.forms) text += fmt::format("    {}\n", form);
  text += fmt::format("\n{} It needs {}.\n\nOn `{}`:\n\n", kind.says, needs_of(kind),
                      kind.example_board);
  const Compilation good = answer(kind.example_board, kind.example);
  for (const Part& part : good.storyboard.chapters.front().parts) {
    if (!part.scene) continue;
    for (const ProvedClaim& claim : part.scene->claims) {
      text += fmt::format("- `{}` is true. {} {}\n", kind.example, claim.statement, claim.proof);
    }
  }
  const Compilation bad = answer(kind.example_board, kind.counterexample);
  for (const Diagnostic& diagnostic : bad.diagnostics) {
    text += fmt::format("- `{}` is false. {} {}", kind.counterexample, diagnostic.truth,
                        diagnostic.proof);
    if (diagnostic.fix)
      text += fmt::format(" Pointwright suggests `{}`.", diagnostic.fix->replacement);
    text += '\n';
  }
  return text;
}

}  // namespace

std::string claim_reference() {
  std::string text =
      "# Claims\n\n"
      "<!-- Made from lesson/claims/ by pointwright_docs; change it there. -->\n\n"
      "A claims block says what is true of a board; Pointwright proves each claim or stops. Words\n"
      "in capitals stand for something of your own:\n\n"
      "| word | stands for | such as |\n| --- | --- | --- |\n";
  for (const Blank& blank : blanks())
    text += fmt::format("| {} | {} | `{}` |\n", blank.name, blank.meaning, blank.example);
  text +=
      "\n`with 6-4:` or `with dark 6-4:` before a claim gives it another roll. `#` begins a "
      "comment.\nHow claims stand in a lesson is said in [lesson-grammar.md](lesson-grammar.md).\n";
  text += "\n| claim | says |\n| --- | --- |\n";
  for (const ClaimKind* kind : claim_kinds()) {
    std::string forms;
    for (const std::string_view form : kind->forms)
      forms += fmt::format("{}`{}`", forms.empty() ? "" : "<br>", form);
    text += fmt::format("| {} | {} |\n", forms, kind->says);
  }
  for (const ClaimKind* kind : claim_kinds()) text += section(*kind);
  return text;
}

}  // namespace pointwright::lesson

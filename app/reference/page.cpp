#include <fmt/format.h>

#include <sstream>

#include "app/help.hpp"
#include "app/reference/reference.hpp"

namespace pointwright::app {
std::string reference_page(const Program& program) {
  std::stringstream nothing;
  // Screens as they are piped to a file: no colour, lines of the usual length.
  const Io io{.in = nothing, .out = nothing, .err = nothing};
  std::string page =
      "# The command line\n\n"
      "This page is made from the help of the program itself (`pointwright VERB --help`).\n\n";
  for (const Verb& verb : program.verbs()) {
    page += fmt::format("- [`{0}`](#{0}): {1}\n", verb.guide.name, verb.guide.summary);
  }
  page += fmt::format("\n{}\n", wrapped(exit_codes(), 100));
  for (const Verb& verb : program.verbs()) {
    page += fmt::format("\n## {}\n\n```text\n{}```\n", verb.guide.name, help_screen(verb, io));
  }
  return page;
}

}  // namespace pointwright::app

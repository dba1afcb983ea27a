#include "app/help.hpp"

#include <fmt/format.h>

#include "app/version.hpp"

namespace pointwright::app {
namespace {

constexpr int text_indent = 4;

std::string heading(std::string_view text, const Io& io) {
  return painted(Ink::strong, text, io.colour_out) + "\n";
}

/// "-o, --output PATH" or "POSITION".
std::string label(const Parameter& parameter) {
  std::string result = fmt::format("{}", fmt::join(parameter.names, ", "));
  if (!parameter.value.empty()) result += " " + parameter.value;
  return result;
}

std::string list(const std::vector<Parameter>& all, bool arguments, const Io& io) {
  std::string result;
  for (const Parameter& parameter : all) {
    if (parameter.is_argument != arguments) continue;
    result += fmt::format("  {}\n", painted(Ink::strong, label(parameter), io.colour_out));
    result += wrapped(parameter.text, io.width, text_indent + 2);
  }
  return result;
}

}  // namespace

std::string usage(const Verb& verb) {
  std::string result = fmt::format("pointwright {} [OPTIONS]", verb.guide.name);
  for (const Parameter& parameter : verb.options.parameters()) {
    if (!parameter.is_argument) continue;
    const std::string name = parameter.names.front() + (parameter.repeats ? "..." : "");
    result += fmt::format(" [{}]", name);
  }
  return result;
}

std::string help_screen(const Program& program, const Io& io) {
  std::string result = wrapped(purpose(), io.width);
  result += "\n" + heading("Usage", io);
  result += "  pointwright VERB [OPTIONS] [ARGUMENTS]\n\n";
  result += heading("Verbs", io);
  for (const Verb& verb : program.verbs()) {
    result += fmt::format("  {}{}{}\n", painted(Ink::strong, verb.guide.name, io.colour_out),
                          std::string(10 - verb.guide.name.size(), ' '), verb.guide.summary);
  }
  result += "\n" + heading("Options", io);
  result += "  -h, --help     Show this help; `pointwright VERB --help` teaches a verb.\n";
  result += "  -V, --version  Show the version.\n\n";
  result += heading("Try", io);
  result +=
      "  pointwright plays \"light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; light to play 3-1\"\n"
      "  pointwright new course first-evening\n"
      "  pointwright build first-evening\n\n";
  result += wrapped(exit_codes(), io.width);
  return result;
}

std::string help_screen(const Verb& verb, const Io& io) {
  const std::vector<Parameter> all = verb.options.parameters();
  std::string result = wrapped(verb.guide.summary, io.width);
  result += "\n" + heading("Usage", io) + "  " + usage(verb) + "\n\n";
  result += wrapped(verb.guide.text, io.width);
  const std::string arguments = list(all, true, io);
  if (!arguments.empty()) result += "\n" + heading("Arguments", io) + arguments;
  result += "\n" + heading("Options", io) + list(all, false, io);
  if (!verb.guide.examples.empty()) result += "\n" + heading("Examples", io);
  for (const Example& example : verb.guide.examples) {
    result += wrapped(example.shows, io.width, 2);
    // Commands are not broken: they are there to be copied.
    result += fmt::format("    {}\n", example.command);
  }
  return result;
}

std::string_view purpose() {
  return "Pointwright proves the claims in a backgammon lesson and makes from the proved text "
         "everything that the learners see.";
}

std::string_view exit_codes() {
  return "Exit codes: 0 when all is well; 1 when the answer is no (a claim is false, a play is "
         "refused); 2 when the input cannot be read or the output cannot be written.";
}

std::string version_line() {
  return fmt::format("pointwright {}", version);
}

}  // namespace pointwright::app

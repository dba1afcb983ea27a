#include <fmt/format.h>

#include "app/help.hpp"
#include "app/reference/reference.hpp"

namespace pointwright::app {
namespace {

/// Text for groff: a backslash, a hyphen and a leading dot or quote mean something there
/// (groff_man(7)).
std::string roff(std::string_view text) {
  std::string result;
  bool line_begins = true;
  for (const char c : text) {
    if (line_begins && (c == '.' || c == '\'')) result += "\\&";
    line_begins = c == '\n';
    if (c == '\\') {
      result += "\\e";
    } else if (c == '-') {
      result += "\\-";
    } else {
      result += c;
    }
  }
  return result;
}

/// Paragraphs, which empty lines separate in a guide.
std::string paragraphs(std::string_view text) {
  std::string result;
  while (!text.empty()) {
    const std::size_t end = text.find("\n\n");
    result += ".PP\n" + roff(text.substr(0, end)) + "\n";
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 2);
  }
  return result;
}

std::string parameter_entry(const Parameter& parameter) {
  std::string names;
  for (const std::string& name : parameter.names) {
    if (!names.empty()) names += ", ";
    names += "\\fB" + roff(name) + "\\fR";
  }
  if (!parameter.value.empty()) names += " \\fI" + roff(parameter.value) + "\\fR";
  return fmt::format(".TP\n{}\n{}\n", names, roff(parameter.text));
}

std::string verb_section(const Verb& verb) {
  std::string result = fmt::format(".SS {}\n", roff(verb.guide.name));
  result += fmt::format("{}\n", roff(verb.guide.summary));
  result += fmt::format(".PP\n\\fB{}\\fR\n", roff(usage(verb)));
  result += paragraphs(verb.guide.text);
  for (const Parameter& parameter : verb.options.parameters()) {
    result += parameter_entry(parameter);
  }
  for (const Example& example : verb.guide.examples) {
    result += fmt::format(".PP\n{}\n.PP\n.RS 4\n.nf\n{}\n.fi\n.RE\n", roff(example.shows),
                          roff(example.command));
  }
  return result;
}

}  // namespace

std::string manual_page(const Program& program) {
  std::string page =
      fmt::format(".TH POINTWRIGHT 1 \"\" \"{}\" \"User Commands\"\n", version_line());
  page += ".SH NAME\npointwright \\- prove backgammon lessons and make what the learners see\n";
  page += ".SH SYNOPSIS\n\\fBpointwright\\fR \\fIVERB\\fR [\\fIOPTIONS\\fR] [\\fIARGUMENTS\\fR]\n";
  page += ".SH DESCRIPTION\n" + roff(purpose()) + "\n";
  page += ".SH VERBS\n";
  for (const Verb& verb : program.verbs()) page += verb_section(verb);
  page += ".SH EXIT STATUS\n" + roff(exit_codes()) + "\n";
  page +=
      ".SH ENVIRONMENT\n.TP\n\\fBNO_COLOR\\fR\nWhen it is set to anything, no colour is used. "
      "Colour "
      "is used on a terminal only.\n";
  return page;
}

}  // namespace pointwright::app

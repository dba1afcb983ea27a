#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "app/program.hpp"

namespace pointwright::app {

/// One option or argument of a verb, as plain words.
struct Parameter {
  std::vector<std::string> names;  ///< "-o", "--output"; for an argument its placeholder alone
  std::string value;               ///< placeholder of its value, empty for a flag
  std::string text;
  bool is_argument = false;
  bool required = false;
  bool repeats = false;
};

/// The arguments of a verb, then its options, each in the order in which they were declared, and
/// --help last.
std::vector<Parameter> parameters(const Verb& verb);

/// "pointwright plays [OPTIONS] POSITION".
std::string usage(const Verb& verb);

/// The screen that `pointwright --help` shows.
std::string help_screen(const Program& program, const Io& io);

/// The screen that `pointwright VERB --help` shows.
std::string help_screen(const Verb& verb, const Io& io);

/// One paragraph on what the exit codes mean, shared by every printed form.
std::string_view exit_codes();

/// The program's name and version: "pointwright 0.1.0".
std::string version_line();

}  // namespace pointwright::app

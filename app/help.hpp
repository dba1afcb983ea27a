#pragma once

#include <string>
#include <string_view>

#include "app/program.hpp"

namespace pointwright::app {

/// "pointwright plays [OPTIONS] POSITION".
std::string usage(const Verb& verb);

/// The screen that `pointwright --help` shows.
std::string help_screen(const Program& program, const Io& io);

/// The screen that `pointwright VERB --help` shows.
std::string help_screen(const Verb& verb, const Io& io);

/// One sentence on what the program is for.
std::string_view purpose();

/// One paragraph on what the exit codes mean, shared by every printed form.
std::string_view exit_codes();

/// The program's name and version: "pointwright 0.1.0".
std::string version_line();

}  // namespace pointwright::app

#pragma once

#include <string>

#include "app/program.hpp"

/// What is written about the verbs, in the forms that documents and shells want. All of it is made
/// from the same guides and options that `--help` shows.
namespace pointwright::app {

/// docs/command-line.md.
std::string reference_page(const Program& program);

/// The manual page pointwright(1), for man (groff's man macros).
std::string manual_page(const Program& program);

/// Completion of verbs, options and known words for three shells.
std::string bash_completion(const Program& program);
std::string zsh_completion(const Program& program);
std::string fish_completion(const Program& program);

}  // namespace pointwright::app

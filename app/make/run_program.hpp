#pragma once

#include <string>
#include <vector>

#include "app/failure.hpp"
#include "rules/result.hpp"

namespace pointwright::app {

/// What a program of somebody else's made of its input.
struct ProgramRun {
  int status = 0;  ///< its exit status; -1 if it was stopped
  std::string out;
  std::string complaints;  ///< what it wrote to its standard error
};

/// Runs a program, looked for on the path, with that standard input, and waits for it. Fails with
/// "missing-program" where there is none of that name, and with "interrupted" where somebody
/// interrupts: see InterruptWatch.
Result<ProgramRun, Failure> run_program(std::vector<std::string> words, const std::string& input);

/// Whether there is a program of that name that answers when it is asked for its version.
bool is_installed(const std::string& program);

}  // namespace pointwright::app

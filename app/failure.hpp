#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "app/io.hpp"
#include "rules/fault.hpp"

namespace pointwright::app {

/// Why something could not be answered: the text that was read and what is wrong with it.
struct Failure {
  std::string text{};    ///< as it was read; empty when the failure is not about a text
  std::string origin{};  ///< "argument", "standard input", or a file's name; may be empty
  std::size_t line = 1;  ///< of `text` in its origin, from 1
  Faults faults{};       ///< at least one; spans are in `text`
};

/// A failure that concerns no text: a file that cannot be opened, a missing argument.
Failure failure(std::string_view id, std::string reason, std::string fix);

/// The failure as a person reads it: for each fault the reason, the text with the fault underlined,
/// and what to write instead.
std::string described(const Failure& failure, bool colour, int width);

/// Prints a failure to `io.err` and returns `exit_bad_input`.
int complain(const Failure& failure, Io& io);

}  // namespace pointwright::app

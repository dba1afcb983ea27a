#pragma once

#include <istream>
#include <ostream>
#include <string>
#include <string_view>

namespace pointwright::app {

/// Everything a verb may talk to. `main` makes one from the process; tests make one from strings.
struct Io {
  std::istream& in;
  std::ostream& out;
  std::ostream& err;
  bool out_is_terminal = false;  ///< a person reads `out`: headings are worth printing
  bool err_is_terminal = false;  ///< a person watches `err`: progress is worth showing
  bool colour_out = false;
  bool colour_err = false;
  int width = 80;  ///< columns of the terminal on which errors are shown
};

/// What the program tells the shell.
enum Exit : int {
  exit_fine = 0,
  exit_no = 1,         ///< the answer is no: a false claim, a refused play
  exit_bad_input = 2,  ///< the question could not be read, or the answer could not be written
};

enum class Ink { plain, strong, good, bad, quiet };

/// The text in that ink where `colour` is on, else the text alone.
std::string painted(Ink ink, std::string_view text, bool colour);

/// The text with every control character replaced, so that what somebody typed cannot drive the
/// terminal on which it is shown.
std::string harmless(std::string_view text);

/// Columns that a text takes on a terminal, counting one for each code point.
int columns(std::string_view text);

/// The text broken at spaces into lines of at most `width` columns, each after `indent` spaces.
/// A word longer than a line stands alone on one.
std::string wrapped(std::string_view text, int width, int indent = 0);

/// The Io of this process: its standard streams, and colour where a terminal shows it and neither
/// NO_COLOR nor TERM=dumb forbids it.
Io process_io();

}  // namespace pointwright::app

#pragma once

#include <cstddef>
#include <functional>
#include <istream>
#include <optional>
#include <string_view>
#include <vector>

#include "app/io.hpp"
#include "app/json.hpp"
#include "rules/result.hpp"

namespace pointwright::app {

/// The longest line that a batch reads, in bytes. The longest position line with a play is far
/// shorter; a longer one is answered with an error and the memory in use stays bounded.
inline constexpr std::size_t longest_line = 4096;

/// Reads lines of bounded length, ending in LF or CRLF.
class LineReader {
 public:
  explicit LineReader(std::istream& in) : in_(in), buffer_(longest_line + 3) {}

  struct Line {
    std::string_view text;  ///< valid until the next call; only the beginning if `too_long`
    std::size_t number = 0;
    bool too_long = false;
  };
  /// The next line, or nothing at the end of the input or when it cannot be read.
  std::optional<Line> next();

 private:
  std::istream& in_;
  std::vector<char> buffer_;
  std::size_t number_ = 0;
};

/// Answers one line: an object, or why there is none.
using AnswerLine = std::function<Result<Json, Failure>(std::string_view line)>;

/// Answers every line of `io.in` that is not blank with one line of JSON on `io.out`, in order;
/// a line that cannot be answered gets its error object in place. Answers are passed on whenever no
/// more input is waiting, so that a program can ask one question at a time.
/// Returns `exit_bad_input` if any line could not be answered, else `exit_fine`.
int answer_batch(Io& io, const AnswerLine& answer);

}  // namespace pointwright::app

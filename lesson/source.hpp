#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "rules/fault.hpp"

namespace pointwright::lesson {

/// A place in a text as an editor shows it. Lines and columns count from 1; a column is one
/// character (code point), whatever number of bytes it takes.
struct LineColumn {
  int line = 1;
  int column = 1;
  friend bool operator==(const LineColumn&, const LineColumn&) = default;
};

/// The text of one file, with its lines found. Offsets are bytes from the start of the text.
class SourceText {
 public:
  /// Keeps the text as it is.
  SourceText(std::string name, std::string text);

  [[nodiscard]] const std::string& name() const { return name_; }
  [[nodiscard]] std::string_view text() const { return text_; }
  [[nodiscard]] std::string_view text(TextSpan span) const;

  [[nodiscard]] int line_count() const { return static_cast<int>(starts_.size()); }
  /// The line that holds an offset, from 1; the last line for an offset past the end.
  [[nodiscard]] int line_of(std::size_t offset) const;
  /// A line without its line break. Precondition: 1 <= line <= line_count().
  [[nodiscard]] TextSpan line(int line) const;
  [[nodiscard]] LineColumn locate(std::size_t offset) const;

 private:
  std::string name_;
  std::string text_;
  std::vector<std::size_t> starts_;
};

/// The first byte that is not part of valid UTF-8, or npos. Over-long forms, surrogates and
/// numbers past U+10FFFF are not valid (Unicode 15.0, table 3-7).
std::size_t find_invalid_utf8(std::string_view text);

}  // namespace pointwright::lesson

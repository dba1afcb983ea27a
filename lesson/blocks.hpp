#pragma once

#include <optional>
#include <string_view>
#include <variant>
#include <vector>

#include "lesson/report.hpp"
#include "lesson/source.hpp"
#include "storyboard/storyboard.hpp"

/// First phase: the text of a lesson file becomes front matter, prose and fenced blocks. Nothing
/// here knows what the blocks mean.
namespace pointwright::lesson {

/// A fenced code block that has a meaning, its lines not yet read.
struct Fenced {
  enum class Kind { board, show, claims, question };
  Kind kind = Kind::board;
  TextSpan opening;             ///< the word after the fence
  TextSpan info;                ///< the rest of that line, trimmed; may be empty
  std::vector<TextSpan> lines;  ///< each line that is not blank, trimmed
};

/// A block and the line, from 1, on which it begins.
struct Block {
  std::variant<Prose, Fenced> content;
  int line = 1;
};

struct Blocks {
  std::optional<TextSpan> front_matter;  ///< the lines between the two `---`
  std::vector<Block> blocks;
};

/// Cuts a lesson file into blocks. Cannot fail: what is wrong is reported and left out.
Blocks read_blocks(const SourceText& source, Report& report);

/// Reads one line of Markdown, such as the text of a question: emphasis, code and links only.
std::vector<Inline> read_words(TextSpan where, Report& report);

/// A span without the white space at its ends.
TextSpan trimmed(const SourceText& source, TextSpan span);

}  // namespace pointwright::lesson

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "lesson/blocks.hpp"
#include "lesson/report.hpp"
#include "rules/position.hpp"
#include "rules/text.hpp"
#include "storyboard/storyboard.hpp"

/// Board blocks, and what other blocks write about boards: names, positions, places, arrows.
namespace pointwright::lesson {

/// A board of the chapter, as later blocks refer to it.
struct NamedBoard {
  std::string name;  ///< may be empty, if the author's could not be read
  TextSpan where;
  std::optional<Position> position;  ///< none if it cannot stand
  View view;
  std::size_t part = 0;  ///< index of its scene among the chapter's parts
};

/// The boards of a chapter so far, in order.
class Boards {
 public:
  [[nodiscard]] const NamedBoard* find(std::string_view name) const;
  [[nodiscard]] const NamedBoard* last() const { return all_.empty() ? nullptr : &all_.back(); }
  [[nodiscard]] std::vector<std::string> names() const;
  void add(NamedBoard board) { all_.push_back(std::move(board)); }

 private:
  std::vector<NamedBoard> all_;
};

/// Where something stands in the lesson, for the storyboard.
Source source_at(const SourceText& source, TextSpan where);

/// Reads the board block. The scene is made even if its position cannot stand.
Scene read_board(const Fenced& block, Boards& boards, std::size_t part, Report& report);

/// Reads a position line, `start[; ...]` or `as NAME[; ...]`; faults are reported in place.
std::optional<Position> read_board_line(TextSpan line, const Boards& boards, Report& report);

/// The board that is named in `where`, or nothing after reporting that there is none.
const NamedBoard* find_board(TextSpan where, const Boards& boards, Report& report);

/// The board that a block is about: the one after `on` in its info string, else the last.
/// `rest` receives what stands before `on`.
const NamedBoard* board_of_block(const Fenced& block, const Boards& boards, Report& report,
                                 TextSpan* rest = nullptr);

/// Whether a word can name a board or a question: lower case letters, digits and hyphens.
bool is_block_name(std::string_view word);

/// Reads `SIDE PLACE, ...`; a place may be a stretch of points, `18-13`.
std::vector<Mark> read_marks(TextSpan where, Report& report);

/// Reads `SIDE FROM/TO, ...`.
std::vector<Arrow> read_arrows(TextSpan where, Report& report);

using text::place_named;
using text::side_named;

/// A line `key: value`: its two spans, or nothing if it has no key.
struct KeyValue {
  TextSpan key;
  TextSpan value;
};
std::optional<KeyValue> key_value(const SourceText& source, TextSpan line);

/// Reports a key that a block does not have.
void report_unknown_key(TextSpan key, const std::vector<std::string>& known, Report& report);

}  // namespace pointwright::lesson

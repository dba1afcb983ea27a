#include <fmt/format.h>

#include <algorithm>

#include "lesson/board.hpp"
#include "rules/text.hpp"

namespace pointwright::lesson {
namespace {

/// What a part of a position line settles, so that a later part can replace it.
std::string part_key(std::string_view line, TextSpan part) {
  const auto words = text::words(line, part, true);
  if (words.empty()) return {};
  const bool is_turn = words.size() > 1 && text::same_word(words[1].text, "to");
  std::string key;
  for (const char c : words.front().text) key += text::lower(c);
  return side_named(key) && is_turn ? "turn" : key;
}

/// A position line put together from an earlier board and the author's parts, which remembers where
/// each part came from.
class Composed {
 public:
  Composed(std::string_view base, TextSpan author, TextSpan head, const SourceText& source)
      : head_(head) {
    const std::string_view text = source.text();
    const std::vector<TextSpan> parts = text::split(text, author, ';');
    std::vector<std::string> replaced;
    replaced.reserve(parts.size());
    for (const TextSpan part : parts) replaced.push_back(part_key(text, part));
    for (const TextSpan part : text::split(base, {0, base.size()}, ';')) {
      const std::string key = part_key(base, part);
      if (std::ranges::find(replaced, key) == replaced.end())
        add(base.substr(part.begin, part.end - part.begin), std::nullopt);
    }
    for (const TextSpan part : parts) add(source.text(part), part.begin);
  }

  [[nodiscard]] const std::string& line() const { return line_; }

  /// Where a stretch of the line stands in the lesson: the word that named the earlier board, if it
  /// came from there.
  [[nodiscard]] TextSpan in_source(TextSpan span) const {
    for (const Piece& piece : pieces_) {
      if (span.begin < piece.begin || span.begin > piece.end) continue;
      if (!piece.source) continue;
      const std::size_t end = std::clamp(span.end, span.begin, piece.end);
      return {*piece.source + (span.begin - piece.begin), *piece.source + (end - piece.begin)};
    }
    return head_;
  }

 private:
  struct Piece {
    std::size_t begin;
    std::size_t end;
    std::optional<std::size_t> source;
  };

  void add(std::string_view text, std::optional<std::size_t> source) {
    if (!pieces_.empty()) line_ += ';';
    pieces_.push_back({line_.size(), line_.size() + text.size(), source});
    line_ += text;
  }

  TextSpan head_;
  std::string line_;
  std::vector<Piece> pieces_;
};

}  // namespace

std::optional<Position> read_board_line(TextSpan line, const Boards& boards, Report& report) {
  const SourceText& source = report.source();
  const std::size_t semicolon = source.text(line).find(';');
  const TextSpan head{line.begin,
                      semicolon == std::string_view::npos ? line.end : line.begin + semicolon};
  const auto words = text::words(source.text(), head, false);
  const bool from_start = words.size() == 1 && text::same_word(words[0].text, "start");
  const bool from_board = !words.empty() && text::same_word(words[0].text, "as");

  if (!from_start && !from_board) {
    auto position = read_position(source.text(line));
    if (position) return *position;
    report.add_faults(kinds::bad_position, position.error(), line.begin);
    return std::nullopt;
  }

  Position base;
  base.board = starting_board();
  if (from_board) {
    if (words.size() != 2) {
      report.add(kinds::bad_position, head, "after `as` stands the name of an earlier board")
          .hints.emplace_back("write it like: as three-doors-open; light to play 6-6");
      return std::nullopt;
    }
    const NamedBoard* board = find_board(words[1].where, boards, report);
    if (board == nullptr || !board->position) return std::nullopt;
    base = *board->position;
  }
  if (semicolon == std::string_view::npos) return base;

  const std::string base_line = to_text(base);
  const Composed composed(base_line, {head.end + 1, line.end}, trimmed(source, head), source);
  auto position = read_position(composed.line());
  if (position) return *position;
  for (const Fault& fault : position.error()) {
    Diagnostic& diagnostic =
        report.add(kinds::bad_position, composed.in_source(fault.where), fault.reason);
    diagnostic.detail = fault.id;
    if (!fault.fix.empty()) diagnostic.hints.push_back(fault.fix);
  }
  return std::nullopt;
}

}  // namespace pointwright::lesson

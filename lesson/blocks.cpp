#include "lesson/blocks.hpp"

#include <cmark-gfm.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "lesson/lesson.hpp"
#include "lesson/markdown.hpp"
#include "lesson/suggest.hpp"
#include "rules/text.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::string_view shortest_fence = "```";
constexpr std::array<std::string_view, 4> block_names{"board", "show", "claims", "question"};

std::optional<Fenced::Kind> kind_named(std::string_view word) {
  const auto* const found = std::ranges::find(block_names, word);
  if (found == block_names.end()) return std::nullopt;
  return static_cast<Fenced::Kind>(found - block_names.begin());
}

/// Cuts one file. The tree's lines count from the first line after the front matter.
class BlockReader {
 public:
  BlockReader(const SourceText& source, Report& report)
      : source_(source),
        report_(report),
        prose_(report, [this](int line, int column) { return offset_of(line, column); }) {}

  Blocks run() {
    if (!is_bounded()) return {};
    read_front_matter();
    const std::size_t begin =
        skipped_ < source_.line_count() ? source_.line(skipped_ + 1).begin : source_.text().size();
    const Tree tree = parse_markdown(source_.text().substr(begin));
    for (cmark_node* node = cmark_node_first_child(tree.get()); node != nullptr;
         node = cmark_node_next(node))
      read_top(node);
    return std::move(result_);
  }

 private:
  [[nodiscard]] std::size_t offset_of(int line, int column) const {
    const int number = std::clamp(line + skipped_, 1, source_.line_count());
    const TextSpan span = source_.line(number);
    return std::min(span.begin + static_cast<std::size_t>(std::max(column - 1, 0)), span.end);
  }

  /// Whether the text is small enough to be parsed. Markdown fills up short rows of a table, so
  /// that a small text can stand for a huge one.
  [[nodiscard]] bool is_bounded() const {
    for (int line = 1; line <= source_.line_count(); ++line) {
      const TextSpan span = source_.line(line);
      const auto bars = std::ranges::count(source_.text(span), '|');
      if (bars <= most_bars && line <= most_lines) continue;
      report_.add(kinds::too_long, span,
                  bars > most_bars
                      ? fmt::format("this line has {} bars; at most {} are read", bars, most_bars)
                      : fmt::format("the file has more than {} lines", most_lines));
      return false;
    }
    return true;
  }

  void read_front_matter() {
    const auto is_fence = [&](int line) {
      return source_.text(trimmed(source_, source_.line(line))) == "---";
    };
    const TextSpan first = source_.line(1);
    if (!is_fence(1)) {
      report_
          .add(kinds::no_front_matter, {first.begin, first.end},
               "the lesson does not begin with its front matter")
          .hints.emplace_back("begin the file with the lines `---`, `title: ...` and `---`");
      return;
    }
    constexpr int longest = 60;
    for (int line = 2; line <= std::min(source_.line_count(), longest); ++line) {
      if (!is_fence(line)) continue;
      result_.front_matter = TextSpan{source_.line(2).begin, source_.line(line).begin};
      skipped_ = line;
      return;
    }
    report_
        .add(kinds::no_front_matter, first,
             fmt::format("the front matter does not end within {} lines", longest))
        .hints.emplace_back("close it with a line `---`");
    skipped_ = 1;
  }

  void read_top(cmark_node* node) {
    if (cmark_node_get_type(node) == CMARK_NODE_CODE_BLOCK) {
      if (fence_length(node) > 0 ? read_fenced(node) : report_indented(node)) return;
    } else {
      report_nested(node);
    }
    std::vector<Prose> prose;
    prose_.read_block(node, prose);
    for (Prose& block : prose) result_.blocks.push_back({std::move(block), line_of(node)});
  }

  /// How many marks the fence of a code block has; 0 if it is indented instead.
  static int fence_length(cmark_node* node) {
    int length = 0;
    int offset = 0;
    char character = 0;
    return cmark_node_get_fenced(node, &length, &offset, &character) != 0 ? length : 0;
  }

  /// The first word after the fence on a line that opens a code block.
  [[nodiscard]] TextSpan opening_word(int line_number) const {
    const TextSpan line = trimmed(source_, source_.line(line_number));
    std::size_t begin = line.begin;
    while (begin < line.end && (source_.text()[begin] == '`' || source_.text()[begin] == '~' ||
                                text::is_space(source_.text()[begin])))
      ++begin;
    std::size_t end = begin;
    while (end < line.end && !text::is_space(source_.text()[end])) ++end;
    return {begin, end};
  }

  [[nodiscard]] int line_of(cmark_node* node) const {
    return std::clamp(cmark_node_get_start_line(node) + skipped_, 1, source_.line_count());
  }

  /// Whether a block with a meaning would begin on this line, if no other were open.
  [[nodiscard]] bool opens_block(int line) const {
    return source_.text(trimmed(source_, source_.line(line))).starts_with(shortest_fence) &&
           kind_named(source_.text(opening_word(line)));
  }

  /// A fence that was left open swallows the next block. Reports it, and returns the line on which
  /// that one begins. An author who means to show a lesson in a lesson writes a longer fence.
  std::optional<int> report_swallowed(cmark_node* node, int first, int last) {
    if (fence_length(node) != static_cast<int>(shortest_fence.size())) return std::nullopt;
    for (int line = first + 1; line <= last; ++line) {
      if (!opens_block(line)) continue;
      Diagnostic& diagnostic = report_.add(
          kinds::unclosed_block, trimmed(source_, source_.line(first)),
          fmt::format("this block is still open on line {}, where the next one begins", line));
      diagnostic.hints.emplace_back("close it with a line ```");
      return line;
    }
    return std::nullopt;
  }

  /// Whether the code block means something; then it was read.
  bool read_fenced(cmark_node* node) {
    const TextSpan word = opening_word(line_of(node));
    const auto kind = kind_named(source_.text(word));
    const int first = line_of(node);
    int last = std::clamp(cmark_node_get_end_line(node) + skipped_, first, source_.line_count());
    const auto swallowed = report_swallowed(node, first, last);
    if (!kind) {
      if (!swallowed) report_near_miss(word);
      return false;
    }
    Fenced block{*kind, word, trimmed(source_, {word.end, source_.line(first).end}), {}};
    const bool closed = !swallowed && last > first &&
                        is_closing(source_.text(trimmed(source_, source_.line(last))));
    if (swallowed) {
      last = *swallowed - 1;
    } else if (!closed) {
      report_
          .add(kinds::unclosed_block, word,
               fmt::format("this {} block does not end",
                           block_names[static_cast<std::size_t>(*kind)]))
          .hints.emplace_back("close it with a line ```");
    }
    for (int line = first + 1; line <= last - (closed ? 1 : 0); ++line) {
      const TextSpan span = trimmed(source_, source_.line(line));
      if (span.begin == span.end) continue;
      if (block.lines.size() == most_block_lines || lines_read_ == most_chapter_lines) {
        report_.add(kinds::too_long, span,
                    fmt::format("from here on the block is not read: at most {} lines of a block "
                                "and {} lines of all blocks are",
                                most_block_lines, most_chapter_lines));
        break;
      }
      ++lines_read_;
      block.lines.push_back(span);
    }
    if (block.lines.empty()) {
      report_.add(kinds::empty_block, word,
                  fmt::format("this {} block has nothing in it",
                              block_names[static_cast<std::size_t>(*kind)]));
    }
    result_.blocks.push_back({std::move(block), first});
    return true;
  }

  static bool is_closing(std::string_view line) {
    return line.size() >= 3 && (line.find_first_not_of('`') == std::string_view::npos ||
                                line.find_first_not_of('~') == std::string_view::npos);
  }

  void report_near_miss(TextSpan word) {
    const std::vector<std::string> known(block_names.begin(), block_names.end());
    const auto meant = did_you_mean(source_.text(word), known);
    if (!meant) return;
    Diagnostic& diagnostic = report_.add(
        kinds::unknown_block, word,
        fmt::format("{} is not a block that Pointwright reads", text::quoted(source_.text(word))));
    diagnostic.hints.push_back(fmt::format("did you mean `{}`?", *meant));
    diagnostic.fix = Fix{word, *meant};
  }

  /// Reports a block with a meaning whose fence is indented so far that it is code. Returns false:
  /// the block is prose.
  bool report_indented(cmark_node* node) {
    const int line = line_of(node);
    if (!opens_block(line)) return false;
    report_
        .add(kinds::nested_block, trimmed(source_, source_.line(line)),
             fmt::format("this {} block is indented, which makes it prose",
                         source_.text(opening_word(line))))
        .hints.emplace_back("begin its lines at the left margin");
    return false;
  }

  /// Reports blocks with a meaning that stand where they cannot have one.
  void report_nested(cmark_node* top) {
    for (cmark_node* node = cmark_node_first_child(top); node != nullptr; node = next(node, top)) {
      if (cmark_node_get_type(node) != CMARK_NODE_CODE_BLOCK || fence_length(node) == 0) continue;
      const char* info = cmark_node_get_fence_info(node);
      std::string_view word = info == nullptr ? "" : info;
      word = word.substr(0, word.find(' '));
      if (!kind_named(word)) continue;
      report_
          .add(kinds::nested_block, source_.line(line_of(node)),
               fmt::format("this {} block stands inside a list or a quotation", word))
          .hints.emplace_back("begin its lines at the left margin");
    }
  }

  /// The node after `node` in reading order within `top`, or null.
  static cmark_node* next(cmark_node* node, cmark_node* top) {
    if (cmark_node* child = cmark_node_first_child(node)) return child;
    while (node != top) {
      if (cmark_node* sibling = cmark_node_next(node)) return sibling;
      node = cmark_node_parent(node);
    }
    return nullptr;
  }

  const SourceText& source_;
  Report& report_;
  ProseReader prose_;
  Blocks result_;
  std::size_t lines_read_ = 0;  ///< of fenced blocks
  int skipped_ = 0;             ///< lines before the Markdown
};

}  // namespace

TextSpan trimmed(const SourceText& source, TextSpan span) {
  const std::string_view text = source.text();
  while (span.begin < span.end && text::is_space(text[span.begin])) ++span.begin;
  while (span.end > span.begin && text::is_space(text[span.end - 1])) --span.end;
  return span;
}

Blocks read_blocks(const SourceText& source, Report& report) {
  return BlockReader(source, report).run();
}

std::vector<Inline> read_words(TextSpan where, Report& report) {
  // A word in front keeps the text a paragraph, whatever it begins with: "24." is no list here.
  constexpr std::string_view guard = "x ";
  const std::string text = std::string(guard) + std::string(report.source().text(where));
  const Tree tree = parse_markdown(text);
  cmark_node* paragraph = cmark_node_first_child(tree.get());
  if (paragraph == nullptr) return {};
  ProseReader reader(report, [&](int /*line*/, int column) {
    const auto offset = static_cast<std::size_t>(std::max(column - 1, 0));
    return where.begin + (offset > guard.size() ? offset - guard.size() : 0);
  });
  std::vector<Inline> words = reader.read_inlines(paragraph);
  if (words.empty()) return words;
  words.front().text.erase(0, guard.size());
  if (words.front().text.empty()) words.erase(words.begin());
  return words;
}

}  // namespace pointwright::lesson

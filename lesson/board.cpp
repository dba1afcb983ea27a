#include "lesson/board.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "lesson/suggest.hpp"
#include "rules/text.hpp"

namespace pointwright::lesson {
namespace {

using text::quoted;
using text::same_word;

/// Reads the words of `view:`.
View read_view(TextSpan where, Report& report) {
  View view;
  bool numbered = false;
  const auto words = text::words(report.source().text(), where, false);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string_view next = i + 1 < words.size() ? words[i + 1].text : "";
    if (const auto side = side_named(words[i].text)) {
      view.bottom = *side;
    } else if (same_word(words[i].text, "home") &&
               (same_word(next, "left") || same_word(next, "right"))) {
      view.home_on_left = same_word(next, "left");
      ++i;
    } else if (same_word(words[i].text, "numbers") && side_named(next)) {
      view.numbering = *side_named(next);
      numbered = true;
      ++i;
    } else if (same_word(words[i].text, "bare")) {
      view.bare = true;
    } else {
      report
          .add(kinds::bad_value, words[i].where,
               fmt::format("{} says nothing about a view", quoted(words[i].text)))
          .hints.emplace_back(
              "the words are light or dark (whose home is at the bottom), home left or home right, "
              "numbers light or numbers dark, and bare");
    }
  }
  if (!numbered) view.numbering = view.bottom;
  return view;
}

/// The name in a board's info string, or empty after reporting what is wrong with it.
std::string read_name(const Fenced& block, const Boards& boards, Report& report) {
  const SourceText& source = report.source();
  const auto words = text::words(source.text(), block.info, false);
  if (words.empty()) {
    report.add(kinds::bad_info, block.opening, "this board has no name")
        .hints.emplace_back("write it like: board three-doors-open");
    return {};
  }
  std::string name(words.front().text);
  if (!is_block_name(name) || words.size() > 1) {
    report
        .add(kinds::bad_info, block.info,
             fmt::format("{} is not a name", quoted(source.text(block.info))))
        .hints.emplace_back("a name is one word of lower case letters, digits and hyphens");
    return {};
  }
  if (const NamedBoard* same = boards.find(name)) {
    report
        .add(kinds::duplicate_name, words.front().where, fmt::format("`{}` names two boards", name))
        .labels.push_back({same->where, "the first one"});
    return {};
  }
  return name;
}

}  // namespace

const NamedBoard* Boards::find(std::string_view name) const {
  const auto found =
      std::ranges::find_if(all_, [&](const NamedBoard& board) { return board.name == name; });
  return found == all_.end() || name.empty() ? nullptr : &*found;
}

std::vector<std::string> Boards::names() const {
  std::vector<std::string> names;
  for (const NamedBoard& board : all_) {
    if (!board.name.empty()) names.push_back(board.name);
  }
  return names;
}

Source source_at(const SourceText& source, TextSpan where) {
  const LineColumn at = source.locate(where.begin);
  return {source.name(), at.line, at.column};
}

bool is_block_name(std::string_view word) {
  constexpr std::size_t longest = 60;
  return !word.empty() && word.size() <= longest && std::ranges::all_of(word, [](char c) {
    return text::is_digit(c) || (c >= 'a' && c <= 'z') || c == '-';
  });
}

std::optional<KeyValue> key_value(const SourceText& source, TextSpan line) {
  const std::size_t colon = source.text(line).find(':');
  if (colon == std::string_view::npos) return std::nullopt;
  const TextSpan key = trimmed(source, {line.begin, line.begin + colon});
  const std::string_view word = source.text(key);
  if (word.empty() || word.find(' ') != std::string_view::npos) return std::nullopt;
  return KeyValue{key, trimmed(source, {line.begin + colon + 1, line.end})};
}

void report_unknown_key(TextSpan key, const std::vector<std::string>& known, Report& report) {
  const std::string_view word = report.source().text(key);
  Diagnostic& diagnostic =
      report.add(kinds::unknown_key, key, fmt::format("{} is not a key here", quoted(word)));
  if (const auto meant = did_you_mean(word, known)) {
    diagnostic.hints.push_back(fmt::format("did you mean `{}`?", *meant));
    diagnostic.fix = Fix{key, *meant};
  } else {
    diagnostic.hints.push_back("the keys are " + one_of(known));
  }
}

Scene read_board(const Fenced& block, Boards& boards, std::size_t part, Report& report) {
  const SourceText& source = report.source();
  static const std::vector<std::string> keys{"caption", "view", "mark", "arrow"};
  Scene scene;
  scene.source = source_at(source, block.opening);
  NamedBoard board;
  board.where = block.opening;
  board.name = read_name(block, boards, report);
  if (!board.name.empty()) board.where = block.info;
  board.part = part;
  if (!block.lines.empty()) board.position = read_board_line(block.lines.front(), boards, report);
  std::vector<std::string_view> seen;
  for (std::size_t i = 1; i < block.lines.size(); ++i) {
    const auto line = key_value(source, block.lines[i]);
    if (!line) {
      report
          .add(kinds::bad_line, block.lines[i],
               fmt::format("{} is not `key: value`", quoted(source.text(block.lines[i]))))
          .hints.push_back("after the position, a board has lines that begin with " + one_of(keys) +
                           ", and a colon");
      continue;
    }
    const std::string_view key = source.text(line->key);
    if (key != "mark" && key != "arrow" && std::ranges::find(seen, key) != seen.end()) {
      report.add(kinds::duplicate_key, line->key, fmt::format("`{}` is written twice", key));
      continue;
    }
    seen.push_back(key);
    if (key == "caption") {
      scene.caption = source.text(line->value);
    } else if (key == "view") {
      scene.view = read_view(line->value, report);
    } else if (key == "mark") {
      const auto marks = read_marks(line->value, report);
      scene.marks.insert(scene.marks.end(), marks.begin(), marks.end());
    } else if (key == "arrow") {
      const auto arrows = read_arrows(line->value, report);
      scene.arrows.insert(scene.arrows.end(), arrows.begin(), arrows.end());
    } else {
      report_unknown_key(line->key, keys, report);
    }
  }
  scene.id = board.name;
  if (board.position) scene.position = to_text(*board.position);
  board.view = scene.view;
  boards.add(std::move(board));
  return scene;
}

const NamedBoard* find_board(TextSpan where, const Boards& boards, Report& report) {
  const std::string_view name = report.source().text(where);
  if (const NamedBoard* board = boards.find(name)) return board;
  Diagnostic& diagnostic = report.add(kinds::unknown_board, where,
                                      fmt::format("no board above is called {}", quoted(name)));
  if (const auto meant = did_you_mean(name, boards.names())) {
    diagnostic.hints.push_back(fmt::format("did you mean `{}`?", *meant));
    diagnostic.fix = Fix{where, *meant};
  } else if (const auto names = boards.names(); !names.empty()) {
    diagnostic.hints.push_back("the boards above are " + one_of(names));
  }
  return nullptr;
}

const NamedBoard* board_of_block(const Fenced& block, const Boards& boards, Report& report,
                                 TextSpan* rest) {
  const auto words = text::words(report.source().text(), block.info, false);
  const auto on =
      std::ranges::find_if(words, [](const text::Word& word) { return word.text == "on"; });
  const std::size_t before = on == words.end() ? block.info.end : on->where.begin;
  const TextSpan own = trimmed(report.source(), {block.info.begin, before});
  if (rest != nullptr) {
    *rest = own;
  } else if (own.begin < own.end) {
    report
        .add(kinds::bad_info, own,
             fmt::format("{} is not expected here", quoted(report.source().text(own))))
        .hints.emplace_back("write `on` and the name of a board, or nothing");
    return nullptr;
  }
  if (on == words.end()) {
    if (boards.last() != nullptr) return boards.last();
    report.add(kinds::no_board, block.opening, "there is no board above that this could be about")
        .hints.emplace_back("put a board block above it");
    return nullptr;
  }
  if (on + 1 == words.end() || on + 2 != words.end()) {
    report.add(kinds::bad_info, block.info, "after `on` stands the name of one board");
    return nullptr;
  }
  return find_board((on + 1)->where, boards, report);
}

}  // namespace pointwright::lesson

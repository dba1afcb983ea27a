#include <fmt/format.h>

#include <algorithm>

#include "lesson/show.hpp"
#include "rules/text.hpp"

namespace pointwright::lesson {
namespace {

constexpr double longest_step = 600;  // seconds

/// The end of a quoted string that begins at `begin`, or npos: the position of its closing mark.
std::size_t closing_quote(std::string_view line, std::size_t begin, std::string& words) {
  for (std::size_t i = begin + 1; i < line.size(); ++i) {
    if (line[i] == '"') return i;
    const bool escaped =
        line[i] == '\\' && i + 1 < line.size() && (line[i + 1] == '"' || line[i + 1] == '\\');
    if (escaped) ++i;
    words += line[i];
  }
  return std::string_view::npos;
}

/// A number of seconds as in `(4 s)` or `(2.5 s)`.
std::optional<double> seconds_in(std::string_view text) {
  if (text.size() < 4 || text.front() != '(' || text.back() != ')') return std::nullopt;
  text.remove_prefix(1);
  text.remove_suffix(1);
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  if (text.empty() || text.back() != 's') return std::nullopt;
  text.remove_suffix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  const std::size_t point = std::min(text.find('.'), text.size());
  const auto whole = text::number(text.substr(0, point), 100'000);
  if (!whole) return std::nullopt;
  auto seconds = static_cast<double>(*whole);
  double unit = 0.1;
  for (const char c : text.substr(std::min(point + 1, text.size()))) {
    if (!text::is_digit(c)) return std::nullopt;
    seconds += unit * (c - '0');
    unit /= 10;
  }
  return seconds;
}

/// The length of a line's action when nothing on it stands in quotation marks. Reports words that
/// follow moves: `13/7 and on it goes`.
std::size_t report_bare_words(TextSpan line, Report& report) {
  const std::string_view text = report.source().text();
  const auto words = text::words(text, line, false);
  const auto is_move = [](const text::Word& word) {
    return word.text.find('/') != std::string_view::npos || word.text.front() == '(';
  };
  if (words.empty() || !is_move(words.front())) return line.end - line.begin;
  const auto bare = std::find_if_not(words.begin(), words.end(), is_move);
  if (bare == words.end()) return line.end - line.begin;
  report
      .add(kinds::bad_words, {bare->where.begin, line.end},
           "the words that are spoken stand in double quotes")
      .hints.emplace_back("write it like: 13/7 \"And on it goes.\"");
  return (bare - 1)->where.end - line.begin;
}

}  // namespace

ShowLine read_show_line(TextSpan line, Report& report) {
  const std::string_view text = report.source().text(line);
  ShowLine result;
  const std::size_t quote = text.find('"');
  if (quote == std::string_view::npos) {
    for (const std::string_view curly : {"\u201C", "\u201D", "\u201E"}) {
      const std::size_t at = text.find(curly);
      if (at == std::string_view::npos) continue;
      report
          .add(kinds::bad_words, {line.begin + at, line.begin + at + curly.size()},
               "the words stand between curly quotation marks")
          .hints.emplace_back("use straight ones: \"...\"");
      result.action = trimmed(report.source(), {line.begin, line.begin + at});
      result.spoken = true;
      return result;
    }
    result.action = {line.begin, line.begin + report_bare_words(line, report)};
    return result;
  }
  result.action = trimmed(report.source(), {line.begin, line.begin + quote});
  result.spoken = true;
  const std::size_t close = closing_quote(text, quote, result.words);
  if (close == std::string_view::npos) {
    report
        .add(kinds::bad_words, {line.begin + quote, line.end}, "the words do not end on this line")
        .hints.emplace_back("close them with \"; a quotation mark inside is written \\\"");
    return result;
  }
  const TextSpan rest = trimmed(report.source(), {line.begin + close + 1, line.end});
  if (rest.begin == rest.end) return result;
  result.seconds = seconds_in(report.source().text(rest));
  if (result.seconds && *result.seconds <= longest_step) return result;
  report
      .add(kinds::bad_words, rest,
           fmt::format("{} after the words is not a duration",
                       text::quoted(report.source().text(rest))))
      .hints.push_back(
          fmt::format("write it like: (4 s), at most {} s; a quotation mark inside the words is "
                      "written \\\"",
                      static_cast<int>(longest_step)));
  result.seconds.reset();
  return result;
}

}  // namespace pointwright::lesson

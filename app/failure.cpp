#include "app/failure.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace pointwright::app {
namespace {

/// The part of a text that fits on one line around a fault, and the fault's span in that part.
struct Excerpt {
  std::string text;
  int before = 0;     ///< columns before the fault
  int underline = 1;  ///< columns of the fault
};

bool starts_code_point(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
}

/// The nearest offset at or below `at` that does not split a code point.
std::size_t whole(std::string_view text, std::size_t at) {
  at = std::min(at, text.size());
  while (at > 0 && at < text.size() && !starts_code_point(text[at])) --at;
  return at;
}

Excerpt excerpt(std::string_view text, TextSpan span, int width) {
  const auto room = static_cast<std::size_t>(std::max(width - 6, 20));
  const std::size_t begin = whole(text, span.begin);
  const std::size_t end = std::max(begin, whole(text, span.end));
  std::size_t from = 0;
  std::size_t to = text.size();
  if (text.size() > room) {
    // The fault stands about a third of the way in, with as much of the text as fits around it.
    from = begin > room / 3 ? whole(text, begin - (room / 3)) : 0;
    to = whole(text, from + room);
    if (to == text.size()) from = whole(text, text.size() - room);
  }
  const std::string_view lead = from > 0 ? "…" : "";
  const std::string_view trail = to < text.size() ? "…" : "";
  Excerpt result;
  result.text = fmt::format("{}{}{}", lead, harmless(text.substr(from, to - from)), trail);
  result.before = columns(lead) + columns(text.substr(from, begin - from));
  result.underline =
      std::max(1, columns(text.substr(begin, std::min(end, std::max(to, begin)) - begin)));
  return result;
}

}  // namespace

Failure failure(std::string_view id, std::string reason, std::string fix) {
  return {.faults = {{.id = id, .where = {}, .reason = std::move(reason), .fix = std::move(fix)}}};
}

std::string described(const Failure& failure, bool colour, int width) {
  std::string result;
  for (const Fault& fault : failure.faults) {
    std::string lines =
        wrapped(fmt::format("error: {} [{}]", harmless(fault.reason), fault.id), width);
    if (colour) lines.replace(0, 6, painted(Ink::bad, "error:", true));
    result += lines;
    if (!failure.text.empty()) {
      const Excerpt part = excerpt(failure.text, fault.where, width);
      const std::string carets(static_cast<std::size_t>(part.underline), '^');
      if (!failure.origin.empty() && failure.origin != "argument") {
        result += painted(Ink::quiet,
                          fmt::format("  {}:{}:{}", harmless(failure.origin), failure.line,
                                      columns(std::string_view{failure.text}.substr(
                                          0, whole(failure.text, fault.where.begin))) +
                                          1),
                          colour) +
                  "\n";
      }
      result += fmt::format("  {}\n", part.text);
      result += fmt::format("  {}{}\n", std::string(static_cast<std::size_t>(part.before), ' '),
                            painted(Ink::bad, carets, colour));
    }
    if (!fault.fix.empty()) result += wrapped("fix: " + harmless(fault.fix), width, 2);
  }
  return result;
}

int complain(const Failure& failure, Io& io) {
  io.err << described(failure, io.colour_err, io.width);
  return exit_bad_input;
}

}  // namespace pointwright::app

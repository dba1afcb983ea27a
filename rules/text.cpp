#include "rules/text.hpp"

#include <algorithm>

namespace pointwright::text {

bool same_word(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](char x, char y) { return lower(x) == lower(y); });
}

std::vector<Word> words(std::string_view text, TextSpan span, bool underscores) {
  const auto separates = [&](char c) { return is_space(c) || (underscores && c == '_'); };
  std::vector<Word> result;
  std::size_t at = span.begin;
  while (true) {
    while (at < span.end && separates(text[at])) ++at;
    if (at == span.end) return result;
    const std::size_t begin = at;
    while (at < span.end && !separates(text[at])) ++at;
    result.push_back({text.substr(begin, at - begin), {begin, at}});
  }
}

std::vector<TextSpan> split(std::string_view text, TextSpan span, char separator) {
  std::vector<TextSpan> pieces;
  std::size_t begin = span.begin;
  for (std::size_t at = span.begin; at < span.end; ++at) {
    if (text[at] != separator) continue;
    pieces.push_back({begin, at});
    begin = at + 1;
  }
  pieces.push_back({begin, span.end});
  return pieces;
}

std::optional<std::uint64_t> number(std::string_view text, std::uint64_t limit) {
  if (text.empty()) return std::nullopt;
  std::uint64_t value = 0;
  for (const char c : text) {
    if (!is_digit(c)) return std::nullopt;
    const auto digit = static_cast<std::uint64_t>(c - '0');
    if (digit > limit || value > (limit - digit) / 10) return std::nullopt;
    value = value * 10 + digit;
  }
  return value;
}

std::optional<Side> side_named(std::string_view word) {
  for (const Side side : {Side::light, Side::dark}) {
    if (same_word(word, name(side))) return side;
  }
  return std::nullopt;
}

std::optional<Place> place_named(std::string_view word) {
  if (same_word(word, "bar")) return bar_place;
  if (same_word(word, "off")) return off_place;
  const auto point = number(word, bar_place - 1);
  if (!point || *point == 0) return std::nullopt;
  return static_cast<Place>(*point);
}

std::string quoted(std::string_view text) {
  constexpr std::size_t longest = 40;
  std::string result = "`";
  for (const char c : text.substr(0, longest)) {
    const auto byte = static_cast<unsigned char>(c);
    result += byte < 0x20 || byte == 0x7f ? ' ' : c;
  }
  if (text.size() > longest) {
    // Do not cut a UTF-8 sequence in two.
    while (!result.empty() && (static_cast<unsigned char>(result.back()) & 0xc0U) == 0x80U)
      result.pop_back();
    if (static_cast<unsigned char>(result.back()) >= 0xc0U) result.pop_back();
    result += "…";
  }
  return result + "`";
}

std::string counted(int n, std::string_view singular) {
  return std::to_string(n) + " " + std::string(singular) + (n == 1 ? "" : "s");
}

}  // namespace pointwright::text

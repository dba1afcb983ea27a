#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "rules/board.hpp"
#include "rules/fault.hpp"

/// Small tools for reading what people type. No locale, no allocation beyond the results.
namespace pointwright::text {

/// A word and where it stands.
struct Word {
  std::string_view text;
  TextSpan where;
};

constexpr bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
constexpr bool is_space(char c) {
  return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}
constexpr char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

/// Whether two words are equal but for the case of ASCII letters.
bool same_word(std::string_view a, std::string_view b);

/// The words of text[span], separated by white space (and underscores, if asked).
std::vector<Word> words(std::string_view text, TextSpan span, bool underscores);

/// Cuts text[span] at each separator; n separators give n + 1 pieces, some perhaps empty.
std::vector<TextSpan> split(std::string_view text, TextSpan span, char separator);

/// The whole of `text` as a number, if it is digits alone and at most `limit`.
std::optional<std::uint64_t> number(std::string_view text, std::uint64_t limit);

/// light or dark, in any case of letters.
std::optional<Side> side_named(std::string_view word);

/// bar, off, or a point from 1 to 24.
std::optional<Place> place_named(std::string_view word);

/// A stretch of somebody's text in quotation marks for a message, cut short and made printable.
std::string quoted(std::string_view text);

/// "1 checker", "2 checkers".
std::string counted(int n, std::string_view singular);

}  // namespace pointwright::text

#include "film/pace.hpp"

#include "rules/text.hpp"

namespace pointwright::film {

namespace {

bool is_ascii_letter(char c) {
  return text::lower(c) >= 'a' && text::lower(c) <= 'z';
}
// Bytes of a code point beyond ASCII count as letters, but for the punctuation of U+20xx: dashes,
// quotation marks and the ellipsis.
bool is_word_byte(std::string_view text, std::size_t at) {
  const char c = text[at];
  if (is_ascii_letter(c) || text::is_digit(c)) {
    return true;
  }
  const auto is_high = [&](std::size_t i) {
    return i < text.size() && static_cast<unsigned char>(text[i]) >= 0x80;
  };
  if (!is_high(at)) {
    return false;
  }
  std::size_t start = at;
  while (start > 0 && (static_cast<unsigned char>(text[start]) & 0xC0U) == 0x80U) {
    --start;
  }
  return text.substr(start, 2) != "\xE2\x80";
}

bool ends_sentence(char c) {
  return c == '.' || c == '?' || c == '!';
}
bool ends_clause(char c) {
  return c == ',' || c == ';' || c == ':';
}
// "6.5" has no pause inside; "six. Then" has.
bool stands_at_gap(std::string_view text, std::size_t after) {
  while (after < text.size() && (text[after] == '"' || text[after] == ')' || text[after] == '\'')) {
    ++after;
  }
  return after >= text.size() || text::is_space(text[after]) ||
         static_cast<unsigned char>(text[after]) >= 0x80;
}

}  // namespace

int spoken_words(std::string_view text) {
  int words = 0;
  bool inside = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool joins_letters = (text[i] == '\'' || text[i] == '-') && inside &&
                               i + 1 < text.size() && is_word_byte(text, i + 1) &&
                               !text::is_digit(text[i + 1]);
    const bool apostrophe = text.substr(i, 3) == "\xE2\x80\x99" && inside;
    if (apostrophe) {
      i += 2;
      continue;
    }
    const bool here = is_word_byte(text, i) || joins_letters;
    if (here && !inside) {
      ++words;
    }
    inside = here;
  }
  return words;
}

Milliseconds speaking_time(std::string_view text, const Pace& pace) {
  const int words = spoken_words(text);
  if (words == 0) {
    return Milliseconds{0};
  }
  Milliseconds time{words * 60000L / pace.words_a_minute};
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool dash = text.substr(i, 3) == "\xE2\x80\x94" || text.substr(i, 3) == "\xE2\x80\x93";
    if (ends_sentence(text[i]) && stands_at_gap(text, i + 1)) {
      time += pace.sentence_pause;
    } else if ((ends_clause(text[i]) && stands_at_gap(text, i + 1)) || dash) {
      time += pace.clause_pause;
    }
  }
  return time;
}

}  // namespace pointwright::film

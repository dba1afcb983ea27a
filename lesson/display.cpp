#include "lesson/display.hpp"

#include <algorithm>
#include <array>
#include <cstdint>

#include "lesson/source.hpp"

namespace pointwright::lesson {
namespace {

struct Range {
  std::uint32_t first;
  std::uint32_t last;
};

// Marks that take no column of their own: combining blocks, zero-width characters, variation
// selectors.
constexpr std::array<Range, 12> no_width{{{0x0300, 0x036F},
                                          {0x0483, 0x0489},
                                          {0x0591, 0x05BD},
                                          {0x0610, 0x061A},
                                          {0x064B, 0x065F},
                                          {0x1AB0, 0x1AFF},
                                          {0x1DC0, 0x1DFF},
                                          {0x200B, 0x200D},
                                          {0x20D0, 0x20FF},
                                          {0xFE00, 0xFE0F},
                                          {0xFE20, 0xFE2F},
                                          {0xE0100, 0xE01EF}}};

// East Asian wide and full-width characters, and emoji shown like them.
constexpr std::array<Range, 11> two_wide{{{0x1100, 0x115F},
                                          {0x2E80, 0x303E},
                                          {0x3041, 0x33FF},
                                          {0x3400, 0x4DBF},
                                          {0x4E00, 0x9FFF},
                                          {0xA000, 0xA4CF},
                                          {0xAC00, 0xD7A3},
                                          {0xF900, 0xFAFF},
                                          {0xFE30, 0xFE6F},
                                          {0xFF00, 0xFF60},
                                          {0x1F300, 0x1FAFF}}};

template <std::size_t n>
bool within(const std::array<Range, n>& ranges, std::uint32_t character) {
  return std::ranges::any_of(ranges, [&](const Range& range) {
    return range.first <= character && character <= range.last;
  });
}

/// The character at text[at] and its length in bytes. Precondition: valid UTF-8.
std::uint32_t decode(std::string_view text, std::size_t at, std::size_t& length) {
  const auto byte = [&](std::size_t i) {
    return static_cast<std::uint32_t>(static_cast<unsigned char>(text[i]));
  };
  const std::uint32_t first = byte(at);
  length = first < 0x80 ? 1 : first < 0xE0 ? 2 : first < 0xF0 ? 3 : 4;
  if (length == 1) return first;
  std::uint32_t character = first & (0xFFU >> (length + 1));
  for (std::size_t k = 1; k < length && at + k < text.size(); ++k)
    character = (character << 6U) | (byte(at + k) & 0x3FU);
  return character;
}

bool is_unsafe(std::uint32_t character) {
  return character < 0x20 || (character >= 0x7F && character < 0xA0) ||
         (character >= 0x202A && character <= 0x202E) ||
         (character >= 0x2066 && character <= 0x2069) || character == 0x2028 || character == 0x2029;
}

}  // namespace

int display_width(std::string_view text) {
  int width = 0;
  std::size_t length = 1;
  for (std::size_t i = 0; i < text.size(); i += length) {
    const std::uint32_t character = decode(text, i, length);
    width += within(no_width, character) ? 0 : within(two_wide, character) ? 2 : 1;
  }
  return width;
}

std::string printable(std::string_view text) {
  constexpr std::string_view replacement = "\xEF\xBF\xBD";
  std::string result;
  while (!text.empty()) {
    const std::size_t valid = std::min(find_invalid_utf8(text), text.size());
    std::size_t length = 1;
    for (std::size_t i = 0; i < valid; i += length) {
      const std::uint32_t character = decode(text, i, length);
      if (character == '\t') {
        result += ' ';
      } else if (is_unsafe(character)) {
        result += replacement;
      } else {
        result += text.substr(i, length);
      }
    }
    if (valid == text.size()) break;
    result += replacement;
    text.remove_prefix(valid + 1);
  }
  return result;
}

std::string wrapped(std::string_view text, int width, int indent) {
  std::string result;
  int column = 0;
  bool first = true;
  while (!text.empty()) {
    const std::size_t space = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, space);
    text.remove_prefix(std::min(space + 1, text.size()));
    if (word.empty()) continue;
    const int wide = display_width(word);
    if (!first && column + 1 + wide > width) {
      result += '\n';
      result.append(static_cast<std::size_t>(indent), ' ');
      column = indent;
    } else if (!first) {
      result += ' ';
      ++column;
    }
    result += word;
    column += wide;
    first = false;
  }
  return result;
}

}  // namespace pointwright::lesson

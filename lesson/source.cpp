#include "lesson/source.hpp"

#include <algorithm>

namespace pointwright::lesson {

SourceText::SourceText(std::string name, std::string text)
    : name_(std::move(name)), text_(std::move(text)), starts_{0} {
  for (std::size_t i = 0; i < text_.size(); ++i) {
    if (text_[i] == '\n' && i + 1 < text_.size()) starts_.push_back(i + 1);
  }
}

std::string_view SourceText::text(TextSpan span) const {
  const std::size_t begin = std::min(span.begin, text_.size());
  const std::size_t end = std::clamp(span.end, begin, text_.size());
  return std::string_view(text_).substr(begin, end - begin);
}

int SourceText::line_of(std::size_t offset) const {
  const auto after = std::ranges::upper_bound(starts_, offset);
  return static_cast<int>(after - starts_.begin());
}

TextSpan SourceText::line(int line) const {
  const auto i = static_cast<std::size_t>(line - 1);
  std::size_t end = i + 1 < starts_.size() ? starts_[i + 1] : text_.size();
  while (end > starts_[i] && (text_[end - 1] == '\n' || text_[end - 1] == '\r')) --end;
  return {starts_[i], end};
}

LineColumn SourceText::locate(std::size_t offset) const {
  offset = std::min(offset, text_.size());
  const int line = line_of(offset);
  int column = 1;
  for (std::size_t i = starts_[static_cast<std::size_t>(line - 1)]; i < offset; ++i) {
    const bool continues = (static_cast<unsigned char>(text_[i]) & 0xC0U) == 0x80U;
    if (!continues) ++column;
  }
  return {line, column};
}

std::size_t find_invalid_utf8(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  std::size_t i = 0;
  while (i < text.size()) {
    const unsigned char first = byte(i);
    std::size_t more = 0;
    unsigned char low = 0x80;
    unsigned char high = 0xBF;
    if (first >= 0xC2 && first <= 0xDF) {
      more = 1;
    } else if (first >= 0xE0 && first <= 0xEF) {
      more = 2;
      if (first == 0xE0) low = 0xA0;   // over-long
      if (first == 0xED) high = 0x9F;  // surrogates
    } else if (first >= 0xF0 && first <= 0xF4) {
      more = 3;
      if (first == 0xF0) low = 0x90;   // over-long
      if (first == 0xF4) high = 0x8F;  // past U+10FFFF
    } else if (first >= 0x80) {
      return i;
    }
    for (std::size_t k = 1; k <= more; ++k) {
      if (i + k >= text.size() || byte(i + k) < low || byte(i + k) > high) return i;
      low = 0x80;
      high = 0xBF;
    }
    i += more + 1;
  }
  return std::string_view::npos;
}

}  // namespace pointwright::lesson

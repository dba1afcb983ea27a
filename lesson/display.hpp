#pragma once

#include <string>
#include <string_view>

/// How text takes up room on a terminal.
namespace pointwright::lesson {

/// Columns that a line of UTF-8 takes: two for East Asian wide characters, none for combining
/// marks, one for everything else (Unicode 15.0, EastAsianWidth.txt and general categories, by
/// range).
int display_width(std::string_view text);

/// Text that is safe to print: a control character or a bidirectional override becomes U+FFFD, a
/// tab one space, and a byte that is not UTF-8 U+FFFD.
std::string printable(std::string_view text);

/// Breaks text at spaces so that each line is at most `width` columns, all but the first indented
/// by `indent` spaces. A word longer than a line stands alone.
std::string wrapped(std::string_view text, int width, int indent);

}  // namespace pointwright::lesson

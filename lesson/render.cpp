#include <fmt/format.h>

#include <algorithm>

#include "lesson/diagnostic.hpp"
#include "lesson/display.hpp"

namespace pointwright::lesson {
namespace {

/// The part of a long line that is shown, so that a place in it stays in view.
struct Excerpt {
  std::string before;  ///< printable text up to the place
  std::string place;
  std::string after;
};

constexpr std::string_view ellipsis = "...";

/// The last characters of `text` that fit in `width` columns, or all of it.
std::string tail(const std::string& text, int width) {
  if (display_width(text) <= width) return text;
  std::size_t begin = text.size() - std::min(text.size(), static_cast<std::size_t>(width));
  while (begin < text.size() && (static_cast<unsigned char>(text[begin]) & 0xC0U) == 0x80U) ++begin;
  return std::string(ellipsis) + text.substr(begin);
}

/// The first characters of `text` that fit in `width` columns, or all of it.
std::string head(const std::string& text, int width) {
  if (display_width(text) <= width) return text;
  std::size_t end = std::min(text.size(), static_cast<std::size_t>(std::max(width, 0)));
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
  return text.substr(0, end) + std::string(ellipsis);
}

Excerpt excerpt(const SourceText& source, TextSpan where, TextSpan line, int width) {
  const std::size_t begin = std::clamp(where.begin, line.begin, line.end);
  const std::size_t end = std::clamp(where.end, begin, line.end);
  Excerpt result{printable(source.text({line.begin, begin})), printable(source.text({begin, end})),
                 printable(source.text({end, line.end}))};
  result.place = head(result.place, std::max(width - 20, 20));
  const int room = std::max(width - display_width(result.place), 20);
  const int behind = std::min(display_width(result.after), room / 2);
  result.before = tail(result.before, room - behind);
  result.after = head(result.after, room - std::min(display_width(result.before), room));
  return result;
}

class Renderer {
 public:
  Renderer(const SourceText& source, const RenderOptions& options)
      : source_(source), width_(std::max(options.width, 40)), colour_(options.colour) {}

  std::string run(const Diagnostic& diagnostic) {
    const bool is_error = diagnostic.kind->severity == Severity::error;
    const std::string place = fmt::format("{}:{}:{}: ", printable(diagnostic.file),
                                          diagnostic.begin.line, diagnostic.begin.column);
    const std::string sort =
        fmt::format("{}[{}]: ", name(diagnostic.kind->severity), diagnostic.kind->id);
    const std::string text =
        wrapped(place + sort + printable(diagnostic.message), width_, indent_width);
    out_ += paint(text, is_error ? "1;31" : "1;33") + "\n";
    quote(diagnostic.where, is_error ? "31" : "33", "");
    for (const Label& label : diagnostic.labels) quote(label.where, "36", label.text);
    paragraph("true", diagnostic.truth);
    paragraph("proof", diagnostic.proof);
    for (const std::string& hint : diagnostic.hints) paragraph("hint", hint);
    if (diagnostic.fix) corrected(*diagnostic.fix);
    return std::move(out_);
  }

 private:
  static constexpr int indent_width = 4;
  static constexpr int gutter = 6;

  [[nodiscard]] std::string paint(const std::string& text, std::string_view code) const {
    return colour_ ? fmt::format("\x1b[{}m{}\x1b[0m", code, text) : text;
  }

  void quote(TextSpan where, std::string_view code, const std::string& label) {
    const int line_number = source_.line_of(where.begin);
    const Excerpt parts =
        excerpt(source_, where, source_.line(line_number), width_ - gutter - 4 - 6);
    out_ += fmt::format("{:>{}} | {}{}{}\n", line_number, gutter, parts.before, parts.place,
                        parts.after);
    const int carets = std::max(display_width(parts.place), 1);
    out_ += fmt::format("{:>{}} | {:{}}{}{}\n", "", gutter, "", display_width(parts.before),
                        paint(std::string(static_cast<std::size_t>(carets), '^'), code),
                        label.empty() ? "" : " " + printable(label));
  }

  void paragraph(std::string_view title, const std::string& text) {
    if (text.empty()) return;
    const std::string start = fmt::format("{:>{}}: ", title, gutter + 1);
    out_ += start +
            wrapped(printable(text), width_ - static_cast<int>(start.size()),
                    static_cast<int>(start.size())) +
            "\n";
  }

  /// The whole line with the fix in place, so that it can be pasted.
  void corrected(const Fix& fix) {
    const int line_number = source_.line_of(fix.where.begin);
    const TextSpan line = source_.line(line_number);
    const std::size_t end = std::clamp(fix.where.end, fix.where.begin, line.end);
    const std::string text = std::string(source_.text({line.begin, fix.where.begin})) +
                             fix.replacement + std::string(source_.text({end, line.end}));
    out_ += fmt::format("{:>{}}:\n", "write", gutter + 1);
    std::size_t begin = 0;
    for (int number = line_number; begin <= text.size(); ++number) {
      const std::size_t stop = std::min(text.find('\n', begin), text.size());
      out_ += fmt::format("{:>{}} | {}\n", number, gutter,
                          paint(printable(text.substr(begin, stop - begin)), "32"));
      begin = stop + 1;
    }
  }

  const SourceText& source_;
  int width_;
  bool colour_;
  std::string out_;
};

}  // namespace

std::string render(const Diagnostic& diagnostic, const SourceText& source,
                   const RenderOptions& options) {
  return Renderer(source, options).run(diagnostic);
}

}  // namespace pointwright::lesson

#include "app/serve/preview.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "app/live.hpp"
#include "lesson/display.hpp"
#include "studio/digest.hpp"
#include "studio/preview.hpp"
#include "web/assets.hpp"

namespace pointwright::app {
namespace {

using lesson::Diagnostic;
using lesson::printable;

/// What was understood, and where its parts stand in the lesson.
struct Understood {
  Storyboard storyboard;
  std::vector<std::vector<int>> part_lines;
};

std::string version_of(const std::string& text) {
  constexpr std::size_t enough = 16;  // bytes: a meeting by chance is out of the question
  std::string version;
  for (const char byte : sha256_bytes(text).substr(0, enough))
    version += fmt::format("{:02x}", static_cast<unsigned>(static_cast<unsigned char>(byte)));
  return version;
}

std::optional<AuthorNote::Place> place_of(const Diagnostic& diagnostic,
                                          const Understood& understood) {
  const auto& chapters = understood.storyboard.chapters;
  const auto chapter = std::ranges::find(chapters, diagnostic.file, &Chapter::file);
  if (chapter == chapters.end()) return std::nullopt;
  const auto number = static_cast<std::size_t>(chapter - chapters.begin());
  // The part in which it stands is the last that begins at its line or above.
  const std::vector<int>& lines = understood.part_lines[number];
  const auto next = std::ranges::upper_bound(lines, diagnostic.begin.line);
  return AuthorNote::Place{number, static_cast<std::size_t>(next - lines.begin())};
}

/// The line that a correction gives, as the author would write it.
std::string corrected_line(const lesson::Fix& fix, const lesson::SourceText& source) {
  const TextSpan line = source.line(source.line_of(fix.where.begin));
  const std::size_t end = std::clamp(fix.where.end, fix.where.begin, line.end);
  return std::string(source.text({line.begin, fix.where.begin})) + fix.replacement +
         std::string(source.text({end, line.end}));
}

AuthorNote note_of(const Diagnostic& diagnostic, const lesson::SourceText& source,
                   const Understood& understood) {
  AuthorNote note;
  note.place = place_of(diagnostic, understood);
  note.is_error = diagnostic.kind->severity == lesson::Severity::error;
  note.where = fmt::format("{}, line {}, column {}", printable(diagnostic.file),
                           diagnostic.begin.line, diagnostic.begin.column);
  note.message = printable(diagnostic.message);
  for (const std::string& text : {diagnostic.truth, diagnostic.proof}) {
    if (!text.empty()) note.reasons.push_back(printable(text));
  }
  for (const std::string& hint : diagnostic.hints) note.reasons.push_back(printable(hint));
  const TextSpan line = source.line(diagnostic.begin.line);
  if (line.begin < line.end) {
    const std::size_t begin = std::clamp(diagnostic.where.begin, line.begin, line.end);
    const std::size_t end = std::clamp(diagnostic.where.end, begin, line.end);
    note.line = diagnostic.begin.line;
    note.text = printable(source.text({line.begin, begin}));
    note.marked.begin = note.text.size();
    note.text += printable(source.text({begin, end}));
    note.marked.end = note.text.size();
    note.text += printable(source.text({end, line.end}));
  }
  if (diagnostic.fix) note.correction = corrected_line(*diagnostic.fix, source);
  return note;
}

AuthorNote note_without_place(std::string where, std::string message) {
  AuthorNote note;
  note.where = std::move(where);
  note.message = std::move(message);
  return note;
}

Storyboard titled(std::string title) {
  Storyboard storyboard;
  storyboard.title = std::move(title);
  return storyboard;
}

/// Whether a page can be made of a part, taken alone.
bool can_stand(const Storyboard& storyboard, const Chapter& chapter, const Part& part) {
  Storyboard alone;
  alone.language = storyboard.language;
  alone.chapters.push_back({.id = chapter.id,
                            .file = chapter.file,
                            .title = chapter.title,
                            .summary = {},
                            .parts = {part},
                            .names = chapter.names});
  return page_html(alone).ok();
}

/// What is left when the parts that cannot stand in a page are taken out: a board with a fault, for
/// one, is known by its name alone.
Understood standing(const Compiled& compiled) {
  Understood left{compiled.storyboard, compiled.part_lines};
  if (page_html(left.storyboard).ok()) return left;
  for (std::size_t i = 0; i < left.storyboard.chapters.size(); ++i) {
    Chapter& chapter = left.storyboard.chapters[i];
    std::vector<Part> parts;
    std::vector<int> lines;
    for (std::size_t p = 0; p < chapter.parts.size(); ++p) {
      if (!can_stand(left.storyboard, chapter, chapter.parts[p])) continue;
      parts.push_back(std::move(chapter.parts[p]));
      lines.push_back(left.part_lines[i][p]);
    }
    chapter.parts = std::move(parts);
    left.part_lines[i] = std::move(lines);
  }
  return left;
}

serve::ShownPage page_of(const Storyboard& storyboard, Preview preview) {
  preview.script = web::assets::preview_js();
  preview.style = web::assets::preview_css();
  const LiveParts live = course_parts();
  auto html = page_html(storyboard, &live, &preview);
  if (!html.ok()) {
    // No lesson that the compiler understood gives this; then at least the notes are shown.
    preview.notes.push_back(note_without_place(html.error().where, html.error().reason));
    for (AuthorNote& note : preview.notes) note.place.reset();
    html = page_html(titled(storyboard.title), nullptr, &preview);
  }
  return {preview.version, html.ok() ? *html : std::string{}};
}

}  // namespace

serve::ShownPage preview_page(const Compiled& compiled) {
  const Understood understood = standing(compiled);
  Preview preview;
  std::string everything;
  for (const lesson::SourceText& source : compiled.sources)
    everything += fmt::format("{}\n{}\n{}", source.name(), source.text().size(), source.text());
  preview.summary = summary(compiled);
  for (const Diagnostic& diagnostic : compiled.diagnostics) {
    preview.notes.push_back(note_of(diagnostic, compiled.source_of(diagnostic), understood));
    // A file that cannot be read has no text, but a reason.
    everything += diagnostic.message;
  }
  preview.version = version_of(everything);
  Storyboard storyboard = understood.storyboard;
  if (storyboard.title.empty()) storyboard.title = "Without a title";
  return page_of(storyboard, std::move(preview));
}

serve::ShownPage preview_page(const Failure& failure) {
  Preview preview;
  const Fault& fault = failure.faults.front();
  preview.summary = "there is nothing to show";
  preview.notes.push_back(note_without_place("the lesson", printable(fault.reason)));
  preview.notes.back().reasons.push_back(printable(fault.fix));
  preview.version = version_of(fault.reason);
  return page_of(titled("No lesson"), std::move(preview));
}

}  // namespace pointwright::app

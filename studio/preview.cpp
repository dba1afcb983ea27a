#include "studio/preview.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "studio/page_parts.hpp"

namespace pointwright {

namespace {

bool same(const std::optional<AuthorNote::Place>& a, const std::optional<AuthorNote::Place>& b) {
  return a.has_value() == b.has_value() &&
         (!a || (a->chapter == b->chapter && a->parts == b->parts));
}

/// The words of a note as HTML: what they quote of the lesson stands between grave accents.
std::string note_words(std::string_view words) {
  std::string out;
  while (true) {
    const std::size_t begin = words.find('`');
    const std::size_t end = begin == std::string_view::npos ? begin : words.find('`', begin + 1);
    if (end == std::string_view::npos) {
      return out + escaped(words);
    }
    out += escaped(words.substr(0, begin));
    out += fmt::format("<code>{}</code>", escaped(words.substr(begin + 1, end - begin - 1)));
    words.remove_prefix(end + 1);
  }
}

void write_line(std::string& out, const AuthorNote& note) {
  const std::string_view text = note.text;
  const std::size_t end = std::min(note.marked.end, text.size());
  const std::size_t begin = std::min(note.marked.begin, end);
  out += fmt::format("<pre><code><span class=\"line\">{}</span> {}<mark>{}</mark>{}</code></pre>\n",
                     note.line, escaped(text.substr(0, begin)),
                     escaped(text.substr(begin, end - begin)), escaped(text.substr(end)));
}

void write_note(std::string& out, const AuthorNote& note, std::size_t number) {
  out += fmt::format(
      "<aside class=\"author-note{}\" id=\"note-{}\" tabindex=\"-1\" aria-label=\"For the author: "
      "{}\">\n<p class=\"where\">{}</p>\n<p class=\"message\">{}</p>\n",
      note.is_error ? "" : " mild", number, escaped(note.where), escaped(note.where),
      note_words(note.message));
  if (note.line > 0) {
    write_line(out, note);
  }
  for (const std::string& reason : note.reasons) {
    out += fmt::format("<p>{}</p>\n", note_words(reason));
  }
  if (!note.correction.empty()) {
    out += fmt::format("<p>Write instead:</p>\n<pre><code>{}</code></pre>\n",
                       escaped(note.correction));
  }
  out += "</aside>\n";
}

}  // namespace

void write_note_list(std::string& out, const Preview& preview) {
  const bool wrong = std::ranges::any_of(preview.notes, &AuthorNote::is_error);
  out += fmt::format(
      "<section class=\"preview{}\" aria-label=\"Preview\">\n<p><strong>Preview</strong> <span "
      "class=\"summary\">{}</span> <span class=\"lost\" role=\"status\"></span></p>\n",
      wrong ? " wrong" : "", escaped(preview.summary));
  if (!preview.notes.empty()) {
    out += "<ol>\n";
    for (std::size_t i = 0; i < preview.notes.size(); ++i) {
      const AuthorNote& note = preview.notes[i];
      out += fmt::format("<li><a href=\"#note-{}\">{}</a>: {}</li>\n", i + 1, escaped(note.where),
                         note_words(note.message));
    }
    out += "</ol>\n";
  }
  write_notes(out, preview, std::nullopt);
  out += "</section>\n";
}

void write_notes(std::string& out, const Preview& preview, std::optional<AuthorNote::Place> place) {
  for (std::size_t i = 0; i < preview.notes.size(); ++i) {
    if (same(preview.notes[i].place, place)) {
      write_note(out, preview.notes[i], i + 1);
    }
  }
}

}  // namespace pointwright

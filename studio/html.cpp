#include "studio/html.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "studio/svg.hpp"

namespace pointwright {

namespace {

bool is_outside(std::string_view address) {
  return address.starts_with("http:") || address.starts_with("https:");
}

struct CodePoint {
  char32_t value = 0;
  std::size_t size = 1;  ///< bytes; 1 for ASCII and for a byte that is not part of UTF-8
};

/// The first character of a text that is not empty (RFC 3629, section 3).
CodePoint code_point(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned first = byte(0);
  const std::size_t size = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : first >= 0xC2 ? 2 : 1;
  if (size == 1 || first > 0xF4 || text.size() < size) {
    return {};
  }
  char32_t value = first & (0xFFU >> (size + 1));
  for (std::size_t i = 1; i < size; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) {
      return {};
    }
    value = (value << 6U) | (byte(i) & 0x3FU);
  }
  return {value, size};
}

}  // namespace

std::string html_id(std::string_view text) {
  std::string id;
  for (const char c : text) {
    if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')) {
      id += c;
    } else if (c >= 'A' && c <= 'Z') {
      id += static_cast<char>(c - 'A' + 'a');
    } else if (!id.empty() && id.back() != '-') {
      id += '-';
    }
  }
  if (id.ends_with('-')) {
    id.pop_back();
  }
  return id.empty() ? "part" : id;
}

std::string ascii_html(std::string_view html) {
  std::string out;
  out.reserve(html.size());
  for (std::size_t at = 0; at < html.size();) {
    const CodePoint found = code_point(html.substr(at));
    if (found.size == 1) {
      out += html[at];
    } else {
      out += fmt::format("&#{};", static_cast<std::uint32_t>(found.value));
    }
    at += found.size;
  }
  return out;
}

std::string chapter_address(const Chapter& chapter, Chapters chapters) {
  const std::string id = html_id(chapter.id);
  return chapters == Chapters::in_the_page ? "#" + id : "chapter-" + id + ".html";
}

std::string contents_address(Chapters chapters) {
  return chapters == Chapters::in_the_page ? "#contents" : "index.html";
}

bool is_safe_link(std::string_view address) {
  const bool clean = std::ranges::all_of(
      address, [](char c) { return static_cast<unsigned char>(c) > 0x20 && c != '\\'; });
  if (!clean || address.starts_with("//")) {
    return false;
  }
  const std::size_t scheme_end = address.find_first_of(":/?#");
  if (scheme_end == std::string_view::npos || address[scheme_end] != ':') {
    return true;
  }
  std::string scheme(address.substr(0, scheme_end));
  std::ranges::transform(scheme, scheme.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  return scheme == "http" || scheme == "https" || scheme == "mailto";
}

std::string ProseWriter::link_target(std::string_view href) const {
  const std::string_view file = href.substr(0, href.find('#'));
  const auto chapter = std::ranges::find_if(
      chapters_, [&](const Chapter& each) { return !file.empty() && each.file == file; });
  return chapter == chapters_.end() ? std::string(href) : chapter_address(*chapter, found_);
}

void ProseWriter::word(std::string& out, const Inline& word) const {
  const auto wrapped = [&](std::string_view tag) {
    out += fmt::format("<{}>", tag);
    words(out, word.children);
    out += fmt::format("</{}>", tag);
  };
  switch (word.kind) {
    case Inline::Kind::text:
      out += escaped(word.text);
      break;
    case Inline::Kind::emphasis:
      wrapped("em");
      break;
    case Inline::Kind::strong:
      wrapped("strong");
      break;
    case Inline::Kind::code:
      out += "<code>" + escaped(word.text) + "</code>";
      break;
    case Inline::Kind::link:
      if (!is_safe_link(word.href)) {
        words(out, word.children);
        break;
      }
      out += fmt::format("<a href=\"{}\"{}>", escaped(link_target(word.href)),
                         is_outside(word.href) ? R"( rel="noopener noreferrer")" : "");
      words(out, word.children);
      out += "</a>";
      break;
    case Inline::Kind::line_break:
      out += "<br>";
      break;
  }
}

void ProseWriter::words(std::string& out, const std::vector<Inline>& words) const {
  for (const Inline& each : words) {
    word(out, each);
  }
}

void ProseWriter::blocks(std::string& out, const std::vector<Prose>& blocks) {
  for (const Prose& each : blocks) {
    block(out, each);
  }
}

void ProseWriter::table(std::string& out, const Prose& table) {
  out += "<div class=\"table\" tabindex=\"0\" role=\"group\" aria-label=\"Table\"><table>\n";
  bool first = true;
  for (const Prose& row : table.children) {
    out += first ? "<thead><tr>" : "<tr>";
    for (const Prose& cell : row.children) {
      out += first ? "<th scope=\"col\">" : "<td>";
      words(out, cell.words);
      blocks(out, cell.children);
      out += first ? "</th>" : "</td>";
    }
    out += first ? "</tr></thead><tbody>\n" : "</tr>\n";
    first = false;
  }
  out += first ? "</table></div>\n" : "</tbody></table></div>\n";
}

void ProseWriter::block(std::string& out, const Prose& prose) {
  const auto wrapped = [&](std::string_view tag) {
    out += fmt::format("<{}>", tag);
    words(out, prose.words);
    blocks(out, prose.children);
    out += fmt::format("</{}>\n", tag);
  };
  switch (prose.kind) {
    case Prose::Kind::heading:
      last_level_ = std::clamp(prose.level + 1, 3, std::min(last_level_ + 1, 6));
      wrapped(fmt::format("h{}", last_level_));
      break;
    case Prose::Kind::paragraph:
      wrapped("p");
      break;
    case Prose::Kind::bullet_list:
      wrapped("ul");
      break;
    case Prose::Kind::numbered_list:
      wrapped("ol");
      break;
    case Prose::Kind::item:
      wrapped("li");
      break;
    case Prose::Kind::quote:
      wrapped("blockquote");
      break;
    case Prose::Kind::code:
      out += "<pre tabindex=\"0\"><code>";
      for (const Inline& each : prose.words) {
        out += each.kind == Inline::Kind::line_break ? "\n" : escaped(each.text);
      }
      out += "</code></pre>\n";
      break;
    case Prose::Kind::divider:
      out += "<hr>\n";
      break;
    case Prose::Kind::table:
      table(out, prose);
      break;
    case Prose::Kind::row:
    case Prose::Kind::cell:
      wrapped("div");
      break;
  }
}

std::string plain_text(const std::vector<Inline>& words) {
  std::string text;
  for (const Inline& word : words) {
    text += word.kind == Inline::Kind::line_break ? " " : word.text;
    text += plain_text(word.children);
  }
  return text;
}

}  // namespace pointwright

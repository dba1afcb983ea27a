#include "studio/page.hpp"

#include <fmt/format.h>

#include <numeric>

#include "studio/assets.hpp"
#include "studio/digest.hpp"
#include "studio/page_head.hpp"
#include "studio/page_parts.hpp"
#include "studio/preview.hpp"
#include "studio/site.hpp"

namespace pointwright {

namespace {

int count_claims(const Storyboard& storyboard) {
  std::size_t count = 0;
  for (const Chapter& chapter : storyboard.chapters) {
    for (const Part& part : chapter.parts) {
      count += part.scene ? part.scene->claims.size() : 0;
      count += part.question ? part.question->claims.size() : 0;
    }
  }
  return static_cast<int>(count);
}

/// The questions of a chapter by their ids, for a list of contents that stands in another page.
std::string question_ids(const Chapter& chapter) {
  std::string ids;
  for (const Part& part : chapter.parts) {
    if (part.question) {
      ids += (ids.empty() ? "" : " ") + question_id(chapter, *part.question);
    }
  }
  return ids;
}

void write_cover(std::string& out, const Storyboard& storyboard, Chapters found) {
  out += "<section class=\"cover\" id=\"contents\" aria-labelledby=\"contents-title\">\n";
  if (!storyboard.summary.empty()) {
    out += fmt::format("<p class=\"lead\">{}</p>\n", escaped(storyboard.summary));
  }
  if (!storyboard.author.empty()) {
    out += fmt::format("<p class=\"author\">{}</p>\n", escaped(storyboard.author));
  }
  out += "<h2 id=\"contents-title\">Contents</h2>\n";
  if (storyboard.chapters.empty()) {
    out += "<p>This course has no chapters yet.</p>\n";
  } else {
    out += "<ol class=\"contents\">\n";
    for (const Chapter& chapter : storyboard.chapters) {
      out += fmt::format("<li data-chapter=\"{}\" data-questions=\"{}\"><a href=\"{}\">{}</a>",
                         html_id(chapter.id), question_ids(chapter),
                         chapter_address(chapter, found), escaped(chapter.title));
      if (!chapter.summary.empty()) {
        out += fmt::format(" <span class=\"summary\">{}</span>", escaped(chapter.summary));
      }
      out += "</li>\n";
    }
    out += "</ol>\n";
  }
  if (const int claims = count_claims(storyboard); claims > 0) {
    out += fmt::format(
        "<section class=\"proof-note\" aria-labelledby=\"proof-title\">\n<h2 "
        "id=\"proof-title\">How "
        "this was proved</h2>\n<p>{}. Before this page was made, a program that knows the rules of "
        "the game checked {} against the board, move by move; had one been false, there would be "
        "no "
        "page. Open a statement under a board to read the reason, and check it yourself.</p>\n"
        "</section>\n",
        claims == 1 ? "This course makes one statement that can be checked"
                    : fmt::format("This course makes {} statements that can be checked", claims),
        claims == 1 ? "it" : "every one of them");
  }
  out += "</section>\n";
}

void write_turn(std::string& out, const Storyboard& storyboard, std::size_t number,
                Chapters found) {
  const auto link = [&](std::size_t to, std::string_view rel, std::string_view word) {
    const Chapter& chapter = storyboard.chapters[to];
    out += fmt::format("<a rel=\"{}\" href=\"{}\"><small>{}</small> {}</a>\n", rel,
                       chapter_address(chapter, found), word, escaped(chapter.title));
  };
  out += fmt::format("<nav class=\"turn\" aria-label=\"Around chapter {}\">\n", number + 1);
  if (number > 0) {
    link(number - 1, "prev", "Before");
  } else {
    out += fmt::format("<a rel=\"prev\" href=\"{}\"><small>Before</small> Contents</a>\n",
                       contents_address(found));
  }
  if (number + 1 < storyboard.chapters.size()) {
    link(number + 1, "next", "Next");
  } else {
    out += fmt::format("<a rel=\"next\" href=\"{}\"><small>The end</small> Contents</a>\n",
                       contents_address(found));
  }
  out += "</nav>\n";
}

/// A page: the whole course, or the contents or one chapter of it with the rest beside it.
struct Sheet {
  PageHead head;
  const LiveParts* live = nullptr;
  const Preview* preview = nullptr;
  Chapters found = Chapters::in_the_page;
  bool cover = true;
  std::vector<std::size_t> chapters;
};

/// Hides the contents while a page opens at a chapter, so that they do not flash by. The chapter
/// that the address names is shown as soon as it has been read, before the rest of the file.
constexpr std::string_view early_script = R"(if (location.hash.length > 1) {
  document.documentElement.classList.add('opening');
}
const showIfWanted = (chapter) => {
  if (chapter.id !== location.hash.slice(1).split('--')[0]) return;
  chapter.innerHTML = chapter.querySelector(':scope > noscript').textContent;
  chapter.classList.add('wanted');
  document.documentElement.classList.add('reading');
};
)";
constexpr std::string_view chapter_script =
    "showIfWanted(document.currentScript.previousElementSibling);";

/// Whether chapters wait in <noscript> until they are opened (studio/assets/page.js). In a preview
/// they do not: there an author's notes are looked for all over the page.
bool chapters_wait(const Sheet& sheet) {
  return sheet.found == Chapters::in_the_page && sheet.preview == nullptr;
}

std::optional<PageFault> write_chapter(std::string& out, const Storyboard& storyboard,
                                       std::size_t number, BoardWriter& boards,
                                       const Sheet& sheet) {
  const Chapters found = sheet.found;
  const Preview* preview = sheet.preview;
  const Chapter& chapter = storyboard.chapters[number];
  const std::string id = html_id(chapter.id);
  ProseWriter prose(storyboard.chapters, found);
  prose.start_chapter(2);
  PageContext context{chapter, prose, boards};
  out += fmt::format(
      "<article class=\"chapter\" id=\"{0}\" aria-labelledby=\"{0}-title\">\n{3}<header>\n<p "
      "class=\"kicker\">Chapter {1}</p>\n<h2 id=\"{0}-title\" tabindex=\"-1\">{2}</h2>\n",
      id, number + 1, escaped(chapter.title), chapters_wait(sheet) ? "<noscript>\n" : "");
  if (!chapter.summary.empty()) {
    out += fmt::format("<p class=\"lead\">{}</p>\n", escaped(chapter.summary));
  }
  out += "</header>\n";
  std::size_t parts = 0;
  const auto notes = [&] {
    if (preview != nullptr) {
      write_notes(out, *preview, AuthorNote::Place{number, parts});
    }
  };
  notes();
  for (const Part& part : chapter.parts) {
    std::optional<PageFault> fault;
    if (part.prose) {
      prose.block(out, *part.prose);
    } else if (part.scene) {
      fault = write_scene(out, *part.scene, context);
    } else if (part.question) {
      fault = write_question(out, *part.question, context);
    }
    if (fault) {
      return fault;
    }
    ++parts;
    notes();
  }
  write_turn(out, storyboard, number, found);
  if (chapters_wait(sheet)) {
    out += fmt::format("</noscript>\n</article>\n<script>{}</script>\n", chapter_script);
  } else {
    out += "</article>\n";
  }
  return std::nullopt;
}

Result<std::string, PageFault> write_sheet(const Storyboard& storyboard, const Sheet& sheet) {
  BoardWriter boards;
  std::string chapters;
  for (const std::size_t number : sheet.chapters) {
    if (auto fault = write_chapter(chapters, storyboard, number, boards, sheet)) {
      return std::move(*fault);
    }
  }
  std::string out;
  write_head(out, sheet.head, sheet.live);
  out += "<body>\n<a class=\"skip\" href=\"#main\">Skip to the text</a>\n";
  boards.shared(out);
  std::string notes;
  if (sheet.preview != nullptr) {
    write_note_list(notes, *sheet.preview);
  }
  const std::string contents = contents_address(sheet.found);
  out += fmt::format(
      "<header class=\"masthead\">\n<h1><a href=\"{0}\">{1}</a></h1>\n<nav "
      "aria-label=\"Page\">"
      "<a class=\"to-contents\" href=\"{0}\">Contents</a> <button type=\"button\" "
      "class=\"theme control\" aria-pressed=\"false\">Dark</button></nav>\n</header>\n"
      "{2}<main id=\"main\" tabindex=\"-1\">\n",
      contents, escaped(storyboard.title), notes);
  if (sheet.cover) {
    write_cover(out, storyboard, sheet.found);
  }
  out += chapters;
  out += "</main>\n<p class=\"spoken\" role=\"status\"></p>\n";
  out = ascii_html(out);
  write_script(out, sheet.head, 0);
  write_live(out, sheet.live, sheet.head.files);
  if (sheet.preview != nullptr) {
    write_script(out, sheet.head, 1);
  }
  out += "</body>\n</html>\n";
  return out;
}

PageHead course_head(const Storyboard& storyboard, const LiveParts* live) {
  PageHead head;
  head.title = storyboard.title;
  head.author = storyboard.author;
  head.summary = storyboard.summary;
  head.language = storyboard.language;
  head.course = html_id(storyboard.title);
  head.style = style_sheet(assets::page_css, live);
  head.scripts = {assets::page_js};
  return head;
}

std::vector<std::size_t> every_chapter(const Storyboard& storyboard) {
  std::vector<std::size_t> all(storyboard.chapters.size());
  std::iota(all.begin(), all.end(), std::size_t{0});
  return all;
}

/// The name of a file with its digest in it: "page-1f2e….js".
std::string digest_name(std::string_view stem, std::string_view ending, std::string_view contents) {
  constexpr std::size_t enough = 8;
  std::string name = fmt::format("{}-", stem);
  for (const char byte : sha256_bytes(contents).substr(0, enough)) {
    name += fmt::format("{:02x}", static_cast<unsigned>(static_cast<unsigned char>(byte)));
  }
  return name + std::string(ending);
}

}  // namespace

Result<std::string, PageFault> page_html(const Storyboard& storyboard, const LiveParts* live,
                                         const Preview* preview) {
  Sheet sheet;
  sheet.head = course_head(storyboard, live);
  sheet.live = live;
  sheet.preview = preview;
  sheet.chapters = every_chapter(storyboard);
  sheet.head.early_script = early_script;
  if (chapters_wait(sheet)) {
    sheet.head.chapter_script = chapter_script;
  }
  if (preview != nullptr) {
    sheet.head.preview = preview->version;
    sheet.head.scripts.push_back(preview->script);
    sheet.head.style += preview->style;
  }
  return write_sheet(storyboard, sheet);
}

Result<std::vector<SiteFile>, PageFault> site_files(const Storyboard& storyboard,
                                                    const LiveParts& live) {
  Sheet sheet;
  sheet.head = course_head(storyboard, &live);
  sheet.live = &live;
  sheet.found = Chapters::in_pages_of_their_own;
  std::vector<SiteFile> files;
  const auto file = [&](std::string_view stem, std::string_view ending, std::string_view contents) {
    files.push_back({digest_name(stem, ending, contents), std::string(contents)});
    return files.back().path;
  };
  PageFiles names;
  names.style = file("style", ".css", sheet.head.style);
  names.engine = file("engine", ".wasm", live.engine);
  names.worker = file("worker", ".js", live.worker);
  names.scripts = {file("page", ".js", assets::page_js), file("reader", ".js", live.script)};
  sheet.head.files = &names;

  const auto add = [&](std::string path) -> std::optional<PageFault> {
    auto html = write_sheet(storyboard, sheet);
    if (!html) {
      return html.error();
    }
    files.push_back({std::move(path), std::move(html.value())});
    return std::nullopt;
  };
  if (auto fault = add(contents_address(sheet.found))) {
    return std::move(*fault);
  }
  sheet.cover = false;
  for (std::size_t number = 0; number < storyboard.chapters.size(); ++number) {
    const Chapter& chapter = storyboard.chapters[number];
    sheet.chapters = {number};
    sheet.head.title = fmt::format("{} – {}", chapter.title, storyboard.title);
    sheet.head.summary = chapter.summary;
    if (auto fault = add(chapter_address(chapter, sheet.found))) {
      return std::move(*fault);
    }
  }
  return files;
}

}  // namespace pointwright

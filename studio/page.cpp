#include "studio/page.hpp"

#include <fmt/format.h>

#include "studio/assets.hpp"
#include "studio/page_head.hpp"
#include "studio/page_parts.hpp"
#include "studio/preview.hpp"

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

void write_cover(std::string& out, const Storyboard& storyboard) {
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
      out += fmt::format("<li><a href=\"#{}\">{}</a>", html_id(chapter.id), escaped(chapter.title));
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

void write_turn(std::string& out, const Storyboard& storyboard, std::size_t number) {
  const auto link = [&](std::size_t to, std::string_view rel, std::string_view word) {
    const Chapter& chapter = storyboard.chapters[to];
    out += fmt::format("<a rel=\"{}\" href=\"#{}\"><small>{}</small> {}</a>\n", rel,
                       html_id(chapter.id), word, escaped(chapter.title));
  };
  out += fmt::format("<nav class=\"turn\" aria-label=\"Around chapter {}\">\n", number + 1);
  if (number > 0) {
    link(number - 1, "prev", "Before");
  } else {
    out += "<a rel=\"prev\" href=\"#contents\"><small>Before</small> Contents</a>\n";
  }
  if (number + 1 < storyboard.chapters.size()) {
    link(number + 1, "next", "Next");
  } else {
    out += "<a rel=\"next\" href=\"#contents\"><small>The end</small> Contents</a>\n";
  }
  out += "</nav>\n";
}

std::optional<PageFault> write_chapter(std::string& out, const Storyboard& storyboard,
                                       std::size_t number, BoardWriter& boards,
                                       const Preview* preview) {
  const Chapter& chapter = storyboard.chapters[number];
  const std::string id = html_id(chapter.id);
  ProseWriter prose(storyboard.chapters);
  prose.start_chapter(2);
  PageContext context{chapter, prose, boards};
  out += fmt::format(
      "<article class=\"chapter\" id=\"{0}\" aria-labelledby=\"{0}-title\">\n<header>\n<p "
      "class=\"kicker\">Chapter {1}</p>\n<h2 id=\"{0}-title\" tabindex=\"-1\">{2}</h2>\n",
      id, number + 1, escaped(chapter.title));
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
  write_turn(out, storyboard, number);
  out += "</article>\n";
  return std::nullopt;
}

}  // namespace

Result<std::string, PageFault> page_html(const Storyboard& storyboard, const LiveParts* live,
                                         const Preview* preview) {
  BoardWriter boards;
  std::string chapters;
  for (std::size_t number = 0; number < storyboard.chapters.size(); ++number) {
    if (auto fault = write_chapter(chapters, storyboard, number, boards, preview)) {
      return std::move(*fault);
    }
  }
  std::string out;
  std::vector<std::string_view> scripts{assets::page_js};
  std::string style = style_sheet(assets::page_css, live);
  if (preview != nullptr) {
    scripts.push_back(preview->script);
    style += preview->style;
  }
  write_head(out,
             {.title = storyboard.title,
              .author = storyboard.author,
              .summary = storyboard.summary,
              .language = storyboard.language,
              .course = html_id(storyboard.title),
              .preview = preview == nullptr ? std::string{} : preview->version,
              .style = std::move(style),
              .scripts = std::move(scripts)},
             live);
  out += "<body>\n<a class=\"skip\" href=\"#main\">Skip to the text</a>\n";
  boards.shared(out);
  std::string notes;
  if (preview != nullptr) {
    write_note_list(notes, *preview);
  }
  out += fmt::format(
      "<header class=\"masthead\">\n<h1><a href=\"#contents\">{}</a></h1>\n<nav "
      "aria-label=\"Page\">"
      "<a class=\"to-contents\" href=\"#contents\">Contents</a> <button type=\"button\" "
      "class=\"theme control\" aria-pressed=\"false\">Dark</button></nav>\n</header>\n"
      "{}<main id=\"main\" tabindex=\"-1\">\n",
      escaped(storyboard.title), notes);
  write_cover(out, storyboard);
  out += chapters;
  out += "</main>\n<p class=\"spoken\" role=\"status\"></p>\n";
  out += fmt::format("<script>{}</script>\n", assets::page_js);
  write_live(out, live);
  if (preview != nullptr) {
    out += fmt::format("<script>{}</script>\n", preview->script);
  }
  out += "</body>\n</html>\n";
  return out;
}

}  // namespace pointwright

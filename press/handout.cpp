#include "press/handout.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "press/prose.hpp"
#include "studio/html.hpp"
#include "studio/svg.hpp"
#include "studio/telling.hpp"
#include "studio/wording.hpp"

namespace pointwright::press {

namespace {

DocumentOptions document_options(const Storyboard& course, const PrintOptions& options) {
  return {.paper = options.paper,
          .theme = options.theme,
          .title = course.title,
          .author = course.author,
          .language = course.language};
}

/// The letters before choices: a, b, c.
std::string choice_label(std::size_t i) {
  return i < 26 ? fmt::format("{})", static_cast<char>('a' + i)) : fmt::format("{})", i + 1);
}

class Handout {
 public:
  Handout(Document& document, const Storyboard& course, const std::map<std::string, int>& pages)
      : document_(document), course_(course), pages_(pages) {}

  std::optional<PressFault> write() {
    cover();
    for (std::size_t at = 0; at < course_.chapters.size(); ++at) {
      if (auto fault = chapter(at)) {
        return fault;
      }
    }
    answers();
    return std::nullopt;
  }

  /// The bookmark of a chapter.
  [[nodiscard]] static std::string chapter_name(std::size_t at) {
    return fmt::format("chapter-{}", at + 1);
  }

 private:
  [[nodiscard]] int page_of(const std::string& name) const {
    const auto found = pages_.find(name);
    return found == pages_.end() ? 0 : found->second;
  }

  [[nodiscard]] bool has_questions() const {
    for (const Chapter& chapter : course_.chapters) {
      for (const Part& part : chapter.parts) {
        if (part.question) {
          return true;
        }
      }
    }
    return false;
  }

  void cover() {
    document_.bookmark(1, "contents", "Contents");
    document_.text(escaped(course_.title),
                   {.size = 26, .bold = true, .before = 0, .after = 8, .tag = "H1"});
    if (!course_.summary.empty()) {
      document_.text(escaped(course_.summary), {.size = 12, .tint = Tint::soft_ink, .after = 6});
    }
    if (!course_.author.empty()) {
      document_.text(escaped(course_.author), {.size = 9.5, .italic = true, .after = 18});
    }
    document_.rule();
    document_.space(6);
    for (std::size_t at = 0; at < course_.chapters.size(); ++at) {
      document_.contents_line(fmt::format("{}  {}", at + 1, course_.chapters[at].title),
                              chapter_name(at), page_of(chapter_name(at)));
    }
    if (has_questions()) {
      document_.contents_line("Answers", "answers", page_of("answers"));
    }
  }

  std::optional<PressFault> chapter(std::size_t at) {
    const Chapter& chapter = course_.chapters[at];
    document_.new_page();
    document_.bookmark(1, chapter_name(at), fmt::format("{}  {}", at + 1, chapter.title));
    document_.text(fmt::format("Chapter {}", at + 1),
                   {.size = 8.5, .tint = Tint::pointer, .after = 1});
    document_.text(escaped(chapter.title),
                   {.size = 19, .bold = true, .after = 4, .tag = "H1", .stay_with_next = true});
    if (!chapter.summary.empty()) {
      document_.text(escaped(chapter.summary), {.size = 10.5, .tint = Tint::soft_ink, .after = 10});
    }
    int number = 0;
    for (const Part& part : chapter.parts) {
      if (part.prose) {
        set_prose(document_, *part.prose);
      } else if (part.scene) {
        const auto set = set_scene(document_, *part.scene, chapter.names);
        if (!set) {
          return PressFault{fmt::format("chapter {}, {}", chapter.id, set.error().reason)};
        }
      } else if (part.question) {
        if (auto fault =
                question(*part.question, chapter, fmt::format("{}.{}", at + 1, ++number))) {
          return fault;
        }
      }
    }
    return std::nullopt;
  }

  void ask(const Question& question, const std::string& number) {
    document_.text(fmt::format("Exercise {}", number), {.size = 8.5,
                                                        .bold = true,
                                                        .tint = Tint::pointer,
                                                        .after = 2,
                                                        .tag = "H3",
                                                        .stay_with_next = true});
    document_.text(markup(question.ask), {.size = 10, .after = 5});
    for (std::size_t i = 0; i < question.choices.size(); ++i) {
      document_.text(markup(question.choices[i].text),
                     {.indent = 18, .after = 2, .label = choice_label(i)});
    }
    if (question.choices.empty()) {
      document_.writing_lines(1);
    }
    document_.space(4);
  }

  std::optional<PressFault> question(const Question& question, const Chapter& chapter,
                                     const std::string& number) {
    document_.space(6);
    if (question.position.empty()) {
      ask(question, number);
      return std::nullopt;
    }
    const auto position = read_position(question.position);
    if (!position) {
      return PressFault{
          fmt::format("chapter {}, question {} cannot be read", chapter.id, question.id)};
    }
    BoardPicture picture;
    picture.view = question.view;
    picture.names = chapter.names;
    document_.begin_beside(board_frame(*position, picture), question.view, picture.margins,
                           document_.column_width() * board_share);
    ask(question, number);
    document_.end_beside();
    return std::nullopt;
  }

  void answers() {
    if (!has_questions()) {
      return;
    }
    document_.new_page();
    document_.bookmark(1, "answers", "Answers");
    document_.text("Answers", {.size = 19, .bold = true, .after = 8, .tag = "H1"});
    for (std::size_t at = 0; at < course_.chapters.size(); ++at) {
      const Chapter& chapter = course_.chapters[at];
      int number = 0;
      for (const Part& part : chapter.parts) {
        if (!part.question) {
          continue;
        }
        if (number == 0) {
          document_.text(escaped(fmt::format("{}  {}", at + 1, chapter.title)),
                         {.size = 10.5,
                          .bold = true,
                          .before = 7,
                          .after = 3,
                          .tag = "H2",
                          .stay_with_next = true});
        }
        answer(*part.question, fmt::format("{}.{}", at + 1, ++number));
      }
    }
  }

  void answer(const Question& question, const std::string& number) {
    std::string right;
    if (question.kind == Question::Kind::choice) {
      for (std::size_t i = 0; i < question.choices.size(); ++i) {
        if (question.choices[i].right) {
          right += (right.empty() ? "" : " or ") + choice_label(i) + " " +
                   markup(question.choices[i].text);
        }
      }
    } else {
      right = escaped(right_answer(question));
    }
    std::string line = "<b>" + right + "</b>";
    if (!question.explanation.empty()) {
      line += "  " + escaped(question.explanation);
    }
    document_.text(line, {.size = 9, .indent = 30, .after = 3, .label = number});
  }

  Document& document_;
  const Storyboard& course_;
  const std::map<std::string, int>& pages_;
};

/// What a first run finds out.
struct Draft {
  std::map<std::string, int> pages;  ///< of the bookmarks
  int last = 0;
};

Result<Draft, PressFault> draft_of(const Storyboard& course, const PrintOptions& options) {
  const std::map<std::string, int> unknown;
  Document document(document_options(course, options));
  if (auto fault = Handout(document, course, unknown).write()) {
    return std::move(*fault);
  }
  return Draft{document.pages(), document.page()};
}

}  // namespace

std::string pages_text(const PageRange& pages) {
  return pages.first == pages.last ? fmt::format("page {}", pages.first)
                                   : fmt::format("pages {} to {}", pages.first, pages.last);
}

Result<std::string, PressFault> handout_pdf(const Storyboard& course, const PrintOptions& options) {
  // The pages of the chapters stand on the first one and are known after the last: once to find
  // them, once to print them.
  const auto draft = draft_of(course, options);
  if (!draft) {
    return draft.error();
  }
  Document document(document_options(course, options));
  if (auto fault = Handout(document, course, draft->pages).write()) {
    return std::move(*fault);
  }
  return document.finish();
}

Result<HandoutPages, PressFault> handout_pages(const Storyboard& course,
                                               const PrintOptions& options) {
  const auto draft = draft_of(course, options);
  if (!draft) {
    return draft.error();
  }
  HandoutPages result;
  int end = draft->last;
  if (const auto answers = draft->pages.find("answers"); answers != draft->pages.end()) {
    result.answers = PageRange{answers->second, end};
    end = answers->second - 1;
  }
  // Each chapter begins on a new page, so the one before ends on the page before.
  result.chapters.resize(course.chapters.size());
  for (std::size_t at = course.chapters.size(); at-- > 0;) {
    const int first = draft->pages.at(Handout::chapter_name(at));
    result.chapters[at] = {first, end};
    end = first - 1;
  }
  return result;
}

Result<std::string, PressFault> blank_boards_pdf(const SideNames& names,
                                                 const PrintOptions& options) {
  Document document(
      {.paper = options.paper,
       .theme = options.theme,
       .title = fmt::format("{} and {}: a board to draw on", names[Side::light], names[Side::dark]),
       .author = {},
       .language = "en"});
  document.text("Draw the checkers as circles, the dice as squares.",
                {.size = 8.5, .tint = Tint::soft_ink, .after = 8});
  // Nothing stands on it, so the frame is the ground alone.
  drawing::Frame frame;
  frame.width = BoardGeometry::width;
  frame.height = BoardGeometry::board_height;
  const View view;
  frame.layers.push_back(board_ground(view, false));
  // Two to a page, on a low sheet too: the line above takes 24 points, what follows a board 10.
  const double height = (document.column_height() - 24) / 2 - 10;
  const double width =
      std::min(document.column_width() * 0.94, height * frame.width / frame.height);
  for (int i = 0; i < 2; ++i) {
    document.board(frame, view, false, width);
  }
  return document.finish();
}

}  // namespace pointwright::press

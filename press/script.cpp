#include "press/script.hpp"

#include <fmt/format.h>

#include "film/shot_list.hpp"
#include "press/prose.hpp"
#include "studio/svg.hpp"

namespace pointwright::press {

namespace {

constexpr double script_board_share = 0.34;

void set_shot(Document& document, const film::Shot& shot, film::Milliseconds begin) {
  document.begin_beside(board_frame(shot.start, shot.opening), shot.opening.view,
                        shot.opening.margins, document.column_width() * script_board_share);
  document.text(
      fmt::format("Shot {}  \xC2\xB7  {:.1f} s  \xC2\xB7  from {}", shot.number,
                  static_cast<double>(shot.length.count()) / 1000, film::clock_text(begin)),
      {.size = 8, .tint = Tint::pointer, .after = 1, .tag = "H3"});
  document.text(escaped(shot.title()), {.size = 10, .bold = true, .after = 4});
  if (shot.beats.empty()) {
    document.text("Hold the picture; nothing is said.", {.italic = true});
  }
  for (const film::Beat& beat : shot.beats) {
    std::string line;
    if (!beat.hands.empty()) {
      line += "<i>[" + escaped(beat.hands) + "]</i> ";
    }
    for (const Mark& mark : beat.step->marks) {
      const bool first = &mark == &beat.step->marks.front();
      line += fmt::format("{}{} {}", first ? "<i>[point to " : ", ",
                          escaped(shot.chapter->names[mark.side]), to_text(mark.place));
    }
    if (!beat.step->marks.empty()) {
      line += "]</i> ";
    }
    line += escaped(beat.words());
    document.text(line, {.size = 11, .after = 3});
  }
  if (shot.opens_scene) {
    set_claims(document, shot.scene->claims);
  }
  document.end_beside();
}

}  // namespace

Result<std::string, PressFault> script_pdf(const Storyboard& course,
                                           const std::vector<film::Shot>& shots,
                                           const PrintOptions& options) {
  Document document({.paper = options.paper,
                     .theme = options.theme,
                     .title = course.title + ": script",
                     .author = course.author,
                     .language = course.language});
  document.bookmark(1, "script", "Script");
  document.text(escaped(course.title), {.size = 22, .bold = true, .after = 3, .tag = "H1"});
  document.text(fmt::format("Script  \xC2\xB7  {} shots  \xC2\xB7  {}", shots.size(),
                            film::clock_text(film::running_time(shots))),
                {.size = 11, .tint = Tint::soft_ink, .after = 10});
  film::Milliseconds begin{0};
  const Chapter* chapter = nullptr;
  for (const film::Shot& shot : shots) {
    if (shot.chapter != chapter) {
      chapter = shot.chapter;
      constexpr double company = 190;  // a chapter's name takes its first shot with it
      document.need(company);
      document.bookmark(1, fmt::format("chapter-{}", shot.chapter_at + 1), chapter->title);
      document.text(escaped(fmt::format("{}  {}", shot.chapter_at + 1, chapter->title)),
                    {.size = 15, .bold = true, .before = 10, .after = 8, .tag = "H2"});
    }
    set_shot(document, shot, begin);
    begin += shot.length;
  }
  return document.finish();
}

}  // namespace pointwright::press

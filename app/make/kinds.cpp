#include "app/make/kinds.hpp"

#include <array>

#include "app/files.hpp"
#include "app/live.hpp"
#include "film/captions.hpp"
#include "film/slides.hpp"
#include "film/timeline.hpp"
#include "storyboard/json.hpp"
#include "studio/html.hpp"
#include "studio/page.hpp"
#include "studio/site.hpp"

namespace pointwright::app {
namespace {

constexpr std::array<Kind, 14> all{{
    {"page", "the page, and the storyboard for other programs", add_page},
    {"site", "the page as files for a web server, each chapter a page of its own", add_site},
    {"slides", "a presenter's deck: big boards, one thought a slide, notes", add_slides},
    {"handout", "a booklet with exercises and answers, and empty boards, as PDF", add_handout},
    {"script", "what is said and done in each shot, as PDF and as a table", add_script},
    {"stage", "how to set up the board for each shot, as PDF and as a table", add_stage_sheets},
    {"timeline", "the clips in order, with captions and chapters, for editing programs",
     add_timeline},
    {"clips", "each shot as MP4 with H.264, for the web", add_clips},
    {"overlays", "each shot as WebM with VP9, clear around the board", add_overlays},
    {"prores", "each shot as ProRes 4444, clear around the board, for editors", add_prores},
    {"loops", "each shot as a small GIF, for chats", add_loops},
    {"stills", "the first picture of each shot as PNG, clear around the board", add_stills},
    {"voice", "a guide voice for each shot, spoken by espeak-ng if it is installed", add_voice},
    {"captions", "captions of each chapter and of the course, and chapter marks", add_captions},
}};

}  // namespace

void add_text(std::vector<Product>& products, std::string_view kind, std::string path,
              const std::string& contents) {
  products.push_back(
      text_product(kind, std::move(path), contents, [contents] { return contents; }));
}

std::span<const Kind> kinds() {
  return all;
}

void add_page(const Course& course, std::vector<Product>& products) {
  constexpr int indent = 2;
  add_text(products, "page", course.name + ".html", page_html(course.storyboard).value());
  add_text(products, "page", "storyboard.json", to_json(course.storyboard, indent) + "\n");
}

void add_site(const Course& course, std::vector<Product>& products) {
  const LiveParts live = course_parts();
  const auto site = site_files(course.storyboard, live);
  if (!site.ok()) return;  // the same storyboard has given a page
  for (const SiteFile& file : *site) add_text(products, "site", "site/" + file.path, file.contents);
}

void add_slides(const Course& course, std::vector<Product>& products) {
  add_text(products, "slides", "slides.html",
           film::slides_html(course.storyboard, course.shots).value());
}

void add_timeline(const Course& course, std::vector<Product>& products) {
  add_text(products, "timeline", "timeline.otio",
           film::timeline_otio(course.storyboard.title, course.shots, course.options.clips.fps,
                               "clips", ".mp4"));
}

void add_captions(const Course& course, std::vector<Product>& products) {
  const auto add = [&](const std::string& name, const std::vector<film::Shot>& shots) {
    const auto cues = film::captions(shots);
    add_text(products, "captions", "captions/" + name + ".vtt", film::to_vtt(cues));
    add_text(products, "captions", "captions/" + name + ".srt", film::to_srt(cues));
  };
  for (std::size_t at = 0; at < course.storyboard.chapters.size(); ++at) {
    std::vector<film::Shot> shots;
    for (const film::Shot& shot : course.shots) {
      if (shot.chapter_at == at) shots.push_back(shot);
    }
    if (!shots.empty()) add(html_id(course.storyboard.chapters[at].id), shots);
  }
  // A chapter may be called "course" too: the whole has a name that html_id never gives.
  add("_course", course.shots);
  add_text(products, "captions", "captions/_chapters.vtt",
           film::to_vtt(film::chapter_marks(course.shots)));
}

}  // namespace pointwright::app

#include "film/slides.hpp"

#include <fmt/format.h>

#include "film/assets.hpp"
#include "studio/digest.hpp"
#include "studio/html.hpp"
#include "studio/page_parts.hpp"
#include "studio/svg.hpp"
#include "studio/telling.hpp"
#include "studio/wording.hpp"

namespace pointwright::film {

namespace {

class Deck {
 public:
  Deck(const Storyboard& course, const std::vector<Shot>& shots)
      : course_(course), shots_(shots), prose_(course.chapters) {}

  std::optional<PageFault> write() {
    words_slide("cover", course_.title, course_.summary, course_.author);
    std::size_t next = 0;
    for (std::size_t at = 0; at < course_.chapters.size(); ++at) {
      const Chapter& chapter = course_.chapters[at];
      words_slide("opening", chapter.title, chapter.summary, fmt::format("Chapter {}", at + 1));
      for (const Part& part : chapter.parts) {
        if (part.scene) {
          while (next < shots_.size() && shots_[next].scene == &*part.scene) {
            shot(shots_[next++]);
          }
        } else if (part.question) {
          if (auto fault = question(chapter, *part.question)) {
            return fault;
          }
        }
      }
    }
    return std::nullopt;
  }

  [[nodiscard]] std::string page() const {
    const std::string style = themes_css() + drawing_css() + std::string(assets::slides_css);
    std::string out = fmt::format(
        "<!doctype html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n<meta "
        "http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
        "'sha256-{}'; script-src 'sha256-{}'; base-uri 'none'; form-action 'none'\">\n<meta "
        "name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>{}: "
        "slides</title>\n<style>{}</style>\n</head>\n<body>\n",
        escaped(course_.language), sha256_base64(style), sha256_base64(assets::slides_js),
        escaped(course_.title), style);
    boards_.shared(out);
    // The title of the deck, for those who hear it, whichever slide is shown.
    out += fmt::format("<main>\n<h1 class=\"unseen\">{}</h1>\n", escaped(course_.title));
    out += slides_ + "</main>\n<p class=\"place\" role=\"status\"></p>\n";
    out += fmt::format("<script>{}</script>\n</body>\n</html>\n", assets::slides_js);
    return out;
  }

 private:
  void open(std::string_view kind, std::string_view label) {
    slides_ += fmt::format(
        "<section class=\"slide {}\" id=\"slide-{}\" aria-label=\"{}\" tabindex=\"-1\">\n", kind,
        ++number_, escaped(label));
  }

  // The words of a slide stand together, beside its board or alone.
  void begin_words() { slides_ += "<div class=\"words\">\n"; }
  void close() { slides_ += "</div>\n</section>\n"; }

  void words_slide(std::string_view kind, const std::string& title, const std::string& summary,
                   const std::string& small) {
    open(kind, title);
    begin_words();
    if (!small.empty()) {
      slides_ += fmt::format("<p class=\"small\">{}</p>\n", escaped(small));
    }
    slides_ += fmt::format("<h2>{}</h2>\n", escaped(title));
    if (!summary.empty()) {
      slides_ += fmt::format("<p class=\"summary\">{}</p>\n", escaped(summary));
    }
    if (kind == "cover") {
      slides_ +=
          "<p class=\"keys\">Space or \xE2\x86\x92 goes on, \xE2\x86\x90 back, ] and [ from "
          "chapter to "
          "chapter, n shows the notes, d turns the lights down or up.</p>\n";
    }
    close();
  }

  void board(const Position& position, const BoardPicture& picture, const std::string& title) {
    slides_ += "<div class=\"table\">\n";
    boards_.board(slides_, position, picture, fmt::format("board-{}", number_), title);
    slides_ += "</div>\n";
  }

  void notes(const std::vector<std::string>& lines) {
    slides_ += "<aside class=\"notes\">\n";
    for (const std::string& line : lines) {
      slides_ += fmt::format("<p>{}</p>\n", escaped(line));
    }
    slides_ += "</aside>\n";
  }

  void shot(const Shot& shot) {
    open("scene with-board", shot.title());
    board(shot.start, shot.opening, shot.title());
    begin_words();
    slides_ += fmt::format("<p class=\"thought\">{}</p>\n", escaped(shot.title()));
    std::vector<std::string> lines{
        fmt::format("Shot {}, {} in all.", shot.number, clock_text(shot.length))};
    if (shot.opens_scene) {
      for (const ProvedClaim& claim : shot.scene->claims) {
        lines.push_back("Proved: " + (claim.statement.empty() ? claim.text : claim.statement) +
                        " " + claim.proof);
      }
    }
    notes(lines);
    close();
    for (const Beat& beat : shot.beats) {
      step(shot, beat);
    }
  }

  void step(const Shot& shot, const Beat& beat) {
    open("scene with-board", beat.words().empty() ? shot.title() : beat.words());
    board(beat.after, beat.picture, position_title(beat.after, shot.chapter->names));
    begin_words();
    slides_ += fmt::format("<p class=\"thought\">{}</p>\n",
                           escaped(beat.words().empty() ? beat.hands : beat.words()));
    if (beat.step->ruling) {
      slides_ += fmt::format("<p class=\"ruling\">{}</p>\n", escaped(*beat.step->ruling));
    }
    std::vector<std::string> lines;
    if (!beat.hands.empty()) {
      lines.push_back(beat.hands + ".");
    }
    lines.push_back(
        fmt::format("{:.1f} seconds.", static_cast<double>(beat.length.count()) / 1000));
    notes(lines);
    close();
  }

  std::optional<PageFault> question(const Chapter& chapter, const Question& question) {
    std::optional<Position> position;
    if (!question.position.empty()) {
      const auto read = read_position(question.position);
      if (!read) {
        return PageFault{fmt::format("chapter {}, question {}", chapter.id, question.id),
                         "its position cannot be read"};
      }
      position = *read;
    }
    for (const bool answered : {false, true}) {
      const std::string kind = answered ? "answer" : "question";
      open(position ? kind + " with-board" : kind, plain_text(question.ask));
      if (position) {
        BoardPicture picture;
        picture.view = question.view;
        picture.names = chapter.names;
        board(*position, picture, position_title(*position, chapter.names));
      }
      begin_words();
      slides_ += "<p class=\"thought\">";
      prose_.words(slides_, question.ask);
      slides_ += "</p>\n";
      if (!answered) {
        choices(question);
      } else {
        slides_ += fmt::format("<p class=\"right\">{}</p>\n", escaped(right_answer(question)));
        slides_ += fmt::format("<p class=\"why\">{}</p>\n", escaped(question.explanation));
      }
      close();
    }
    return std::nullopt;
  }

  void choices(const Question& question) {
    if (question.choices.empty()) {
      return;
    }
    slides_ += "<ol class=\"choices\" type=\"a\">\n";
    for (const Question::Choice& choice : question.choices) {
      slides_ += "<li>";
      prose_.words(slides_, choice.text);
      slides_ += "</li>\n";
    }
    slides_ += "</ol>\n";
  }

  const Storyboard& course_;
  const std::vector<Shot>& shots_;
  ProseWriter prose_;
  BoardWriter boards_;
  std::string slides_;
  int number_ = 0;
};

}  // namespace

Result<std::string, PageFault> slides_html(const Storyboard& course,
                                           const std::vector<Shot>& shots) {
  Deck deck(course, shots);
  if (auto fault = deck.write()) {
    return std::move(*fault);
  }
  return deck.page();
}

}  // namespace pointwright::film

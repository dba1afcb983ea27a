#include "film/revision_texts.hpp"

#include <fmt/format.h>

#include <array>

#include "studio/telling.hpp"

namespace pointwright::film {

namespace {

constexpr std::array<std::string_view, 8> step_names{"",      "roll", "play", "tries",
                                                     "offer", "take", "drop", "board"};

std::string text_of(const View& view) {
  return fmt::format("{} at the bottom, home on the {}, points counted by {}{}", name(view.bottom),
                     view.home_on_left ? "left" : "right", name(view.numbering),
                     view.bare ? ", bare" : "");
}

std::string text_of(const std::vector<Mark>& marks) {
  std::string text;
  for (const Mark& mark : marks) {
    text += fmt::format("{}{} {}", text.empty() ? "" : ", ", name(mark.side), to_text(mark.place));
  }
  return text;
}

std::string text_of(const std::vector<Arrow>& arrows) {
  std::string text;
  for (const Arrow& arrow : arrows) {
    text += fmt::format("{}{} {}/{}{}", text.empty() ? "" : ", ", name(arrow.side),
                        to_text(arrow.from), to_text(arrow.to), arrow.refused ? " refused" : "");
  }
  return text;
}

std::string known_text(const HowKnown& known) {
  switch (known.kind) {
    case HowKnown::Kind::exact:
      break;
    case HowKnown::Kind::searched:
      return fmt::format(" (searched, depth {})", known.depth);
    case HowKnown::Kind::sampled:
      return fmt::format(" (sampled, standard error {})", known.standard_error);
  }
  return {};
}

// "name: value", or nothing for no value.
void add(std::vector<std::string>& lines, std::string_view what, const std::string& value) {
  if (!value.empty()) {
    lines.push_back(fmt::format("{}: {}", what, value));
  }
}

std::string_view before_block(Prose::Kind kind) {
  switch (kind) {
    case Prose::Kind::bullet_list:
      return "- ";
    case Prose::Kind::numbered_list:
      return "1. ";
    case Prose::Kind::quote:
      return "> ";
    case Prose::Kind::row:
      return "| ";
    case Prose::Kind::code:
      return "`` ";
    case Prose::Kind::divider:
      return "---";
    case Prose::Kind::table:
      return "table ";
    case Prose::Kind::item:
      return "* ";
    case Prose::Kind::cell:
    case Prose::Kind::heading:
    case Prose::Kind::paragraph:
      break;
  }
  return {};
}

}  // namespace

std::string dressed(const std::vector<Inline>& words) {
  std::string text;
  for (const Inline& word : words) {
    switch (word.kind) {
      case Inline::Kind::text:
        text += word.text;
        break;
      case Inline::Kind::emphasis:
        text += "*" + dressed(word.children) + "*";
        break;
      case Inline::Kind::strong:
        text += "**" + dressed(word.children) + "**";
        break;
      case Inline::Kind::code:
        text += "`" + word.text + "`";
        break;
      case Inline::Kind::link:
        text += "[" + dressed(word.children) + "](" + word.href + ")";
        break;
      case Inline::Kind::line_break:
        text += " / ";
        break;
    }
  }
  return text;
}

std::string text_of(const Prose& prose) {
  std::string text{before_block(prose.kind)};
  if (prose.kind == Prose::Kind::heading) {
    text += std::string(static_cast<std::size_t>(std::max(prose.level, 1)), '#') + " ";
  }
  text += dressed(prose.words);
  bool first = true;
  for (const Prose& child : prose.children) {
    text += (first ? "" : " / ") + text_of(child);
    first = false;
  }
  return text;
}

std::string text_of(const ProvedClaim& claim) {
  std::string text = claim.statement.empty() ? claim.text : claim.statement;
  text += claim.proof.empty() ? "" : " " + claim.proof;
  text += known_text(claim.known);
  if (!claim.statement.empty()) {
    text += " [" + claim.text + "]";
  }
  return text;
}

std::string action_of(const Step& step) {
  const std::string_view kind = step_names.at(static_cast<std::size_t>(step.kind));
  std::string text =
      fmt::format("{}{}{}", kind, kind.empty() || step.action.empty() ? "" : " ", step.action);
  if (step.kind == Step::Kind::place) {
    text += ": " + step.position;
  }
  if (!step.marks.empty()) {
    text += " (points at " + text_of(step.marks) + ")";
  }
  if (!step.arrows.empty()) {
    text += " (arrows " + text_of(step.arrows) + ")";
  }
  if (step.seconds) {
    text += fmt::format(" (in {} seconds)", *step.seconds);
  }
  if (step.ruling) {
    text += " (refused: " + *step.ruling + ")";
  }
  return text;
}

std::string text_of(const Step& step) {
  return action_of(step) + " \"" + step.words + "\" [" + step.position + "]";
}

std::vector<std::string> look_of(const Scene& scene) {
  std::vector<std::string> lines;
  add(lines, "caption", scene.caption);
  add(lines, "position", scene.position);
  add(lines, "marks", text_of(scene.marks));
  add(lines, "arrows", text_of(scene.arrows));
  add(lines, "seen with", text_of(scene.view));
  return lines;
}

std::vector<std::string> text_of(const Question& question) {
  std::vector<std::string> lines;
  add(lines, "asked", dressed(question.ask));
  add(lines, "position", question.position);
  add(lines, "right", right_answer(question));
  for (const Question::Choice& choice : question.choices) {
    add(lines, choice.right ? "choice, right" : "choice", dressed(choice.text));
    add(lines, "reply to " + dressed(choice.text), choice.reply);
  }
  add(lines, "why", question.explanation);
  for (const Question::PlayAnswer& play : question.plays) {
    add(lines, "answer to " + play.play,
        fmt::format("{}{} {} [{}]", play.legal ? "allowed" : "refused",
                    play.right ? ", right." : ".", play.reply, play.after));
  }
  if (question.kind == Question::Kind::number) {
    add(lines, "number", fmt::format("{}, give or take {}", question.number, question.tolerance));
  }
  add(lines, "seen with", text_of(question.view));
  for (const ProvedClaim& claim : question.claims) {
    add(lines, "proved", text_of(claim));
  }
  return lines;
}

std::vector<std::string> head_of(const Storyboard& course) {
  std::vector<std::string> lines;
  add(lines, "title", course.title);
  add(lines, "summary", course.summary);
  add(lines, "author", course.author);
  add(lines, "language", course.language);
  return lines;
}

std::vector<std::string> head_of(const Chapter& chapter) {
  std::vector<std::string> lines;
  add(lines, "title", chapter.title);
  add(lines, "summary", chapter.summary);
  add(lines, "sides", chapter.names[Side::light] + " and " + chapter.names[Side::dark]);
  add(lines, "file", chapter.file);
  return lines;
}

}  // namespace pointwright::film

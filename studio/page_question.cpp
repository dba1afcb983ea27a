#include <fmt/format.h>

#include "studio/page_parts.hpp"
#include "studio/telling.hpp"
#include "studio/wording.hpp"

namespace pointwright {

namespace {

void write_choices(std::string& out, const Question& question, std::string_view id,
                   const PageContext& context) {
  out += "<ul class=\"choices\">\n";
  int number = 0;
  for (const Question::Choice& choice : question.choices) {
    ++number;
    out +=
        fmt::format("<li><label><input type=\"radio\" name=\"{}\" value=\"{}\"><span>", id, number);
    context.prose.words(out, choice.text);
    out += fmt::format("</span></label><span class=\"reply\"{} hidden>{}</span></li>\n",
                       choice.right ? " data-right" : "", escaped(choice.reply));
  }
  out += "</ul>\n";
}

void write_field(std::string& out, std::string_view id, std::string_view label,
                 std::string_view hint, bool number) {
  out += fmt::format(
      "<p class=\"field control\"><label for=\"{0}-answer\">{1}</label> <input id=\"{0}-answer\" "
      "type=\"text\"{2} autocomplete=\"off\" autocapitalize=\"off\" spellcheck=\"false\" "
      "aria-describedby=\"{0}-hint\"><small id=\"{0}-hint\">{3}</small></p>\n",
      id, label, number ? " inputmode=\"decimal\"" : "", hint);
}

// Every play that the page can answer, legal or not, with its reply.
void write_plays(std::string& out, const Question& question) {
  out += "<template><ul>\n";
  for (const Question::PlayAnswer& answer : question.plays) {
    out += fmt::format("<li data-play=\"{}\"{}{}>{}</li>\n", escaped(answer.play),
                       answer.legal ? " data-legal" : "", answer.right ? " data-right" : "",
                       escaped(answer.reply));
  }
  out += "</ul></template>\n";
}

std::string_view kind_name(Question::Kind kind) {
  switch (kind) {
    case Question::Kind::choice:
      return "choice";
    case Question::Kind::play:
      return "play";
    case Question::Kind::number:
      break;
  }
  return "number";
}

}  // namespace

std::string question_id(const Chapter& chapter, const Question& question) {
  return html_id(chapter.id) + "--question-" + html_id(question.id);
}

std::optional<PageFault> write_question(std::string& out, const Question& question,
                                        PageContext& context) {
  const std::string id = question_id(context.chapter, question);
  std::string figure;
  std::string data;
  std::string roll;
  if (!question.position.empty()) {
    const auto position = read_position(question.position);
    if (!position) {
      return PageFault{
          fmt::format("chapter {}, question {}", context.chapter.id, question.id),
          position.error().empty() ? "it cannot be read" : position.error().front().reason};
    }
    if (position->roll) {
      roll = to_text(*position->roll);
    }
    data = board_attributes(question.position, context.chapter.names, question.view);
    BoardPicture picture;
    picture.view = question.view;
    picture.names = context.chapter.names;
    figure = "<figure>\n";
    context.boards.board(figure, *position, picture, id,
                         position_title(*position, context.chapter.names),
                         question.kind == Question::Kind::play ? position->turn : std::nullopt);
    figure += "</figure>\n";
  }

  out += fmt::format(
      "<div class=\"question{}\" id=\"{}\" role=\"group\" aria-labelledby=\"{}-ask\"{}>\n{}<form "
      "data-kind=\"{}\"",
      figure.empty() ? "" : " on-board", id, id, data, figure, kind_name(question.kind));
  if (question.kind == Question::Kind::number) {
    out += fmt::format(" data-number=\"{}\" data-tolerance=\"{}\"", question.number,
                       question.tolerance);
  }
  if (!roll.empty()) {
    out += fmt::format(" data-roll=\"{}\"", roll);
  }
  out += fmt::format(">\n<fieldset><legend id=\"{}-ask\"><span class=\"kicker\">Your turn</span> ",
                     id);
  context.prose.words(out, question.ask);
  out += "</legend>\n";
  switch (question.kind) {
    case Question::Kind::choice:
      write_choices(out, question, id, context);
      break;
    case Question::Kind::play:
      write_field(
          out, id, "Your play",
          "Written like 13/7 8/7, or bar/22. Or point: first at a checker, then where it goes.",
          false);
      write_plays(out, question);
      break;
    case Question::Kind::number:
      write_field(out, id, "Your answer", "A number.", true);
      break;
  }
  out +=
      "<p class=\"control\"><button type=\"submit\">Check</button></p>\n"
      "<p class=\"verdict\" role=\"status\"></p>\n</fieldset></form>\n";
  out += fmt::format(
      "<details class=\"answer\"><summary>Show the answer</summary>\n<p><strong>{}</strong></p>\n",
      escaped(right_answer(question)));
  if (!question.explanation.empty()) {
    out += fmt::format("<p class=\"why\">{}</p>\n", escaped(question.explanation));
  }
  write_claims(out, question.claims);
  out += "</details>\n</div>\n";
  return std::nullopt;
}

}  // namespace pointwright

#include "app/sheet.hpp"

#include <fmt/format.h>

#include "studio/diagram.hpp"
#include "studio/svg.hpp"

namespace pointwright::app {
namespace {

using finder::Choice;
using finder::Exercise;

constexpr std::string_view style =
    "body{font:11pt/1.4 Georgia,serif;max-width:48rem;margin:2rem auto;padding:0 1rem;color:#111;"
    "background:#fff}h1{font-size:1.5rem}section{break-inside:avoid;margin:0 0 1.6rem}"
    "h2{font-size:1rem;margin:0 0 .3rem}svg{width:100%;max-width:26rem;height:auto}"
    "ol.choices{list-style:upper-alpha;margin:.3rem 0}.line{border-bottom:1px solid #888;"
    "height:1.6rem;max-width:26rem}.answers{break-before:page}.grade{font-weight:normal;"
    "color:#555}dt{font-weight:bold;float:left;clear:left;width:2.2rem}dd{margin:0 0 .6rem 2.2rem}";

/// Text with `code` in backticks, as HTML.
std::string words(std::string_view text) {
  std::string result;
  bool code = false;
  for (const std::string& safe = escaped(text); const char c : safe) {
    if (c != '`') {
      result += c;
      continue;
    }
    result += code ? "</code>" : "<code>";
    code = !code;
  }
  return result;
}

std::string answer_words(const Exercise& exercise, std::size_t number) {
  switch (exercise.kind) {
    case Exercise::Kind::number:
      return std::to_string(exercise.number) + ".";
    case Exercise::Kind::choice: {
      const Answers answers = answers_of(exercise, number);
      return fmt::format("{}. {}", static_cast<char>('A' + answers.right),
                         answers.shown[answers.right]->text);
    }
    case Exercise::Kind::play:
      break;
  }
  std::string plays;
  for (const Choice& right : exercise.right)
    plays += (plays.empty() ? "`" : " or `") + right.text + "`";
  return plays + ".";
}

Json choices_object(const std::vector<Choice>& choices) {
  Json result = Json::array();
  for (const Choice& choice : choices)
    result.push_back({{"text", choice.text}, {"reply", choice.reply}});
  return result;
}

std::vector<Choice> choices_from(const Json& json) {
  std::vector<Choice> result;
  for (const Json& each : json)
    result.push_back({each.value("text", std::string{}), each.value("reply", std::string{})});
  return result;
}

constexpr std::string_view kind_words[] = {"play", "choice", "number"};

}  // namespace

Answers answers_of(const Exercise& exercise, std::size_t number) {
  Answers answers;
  answers.right = number * 7 % (exercise.wrong.size() + 1);
  for (std::size_t i = 0; i <= exercise.wrong.size(); ++i) {
    if (i == answers.right) answers.shown.push_back(&exercise.right.front());
    if (i < exercise.wrong.size()) answers.shown.push_back(&exercise.wrong[i]);
  }
  return answers;
}

std::string exercise_sheet(const std::vector<Exercise>& exercises, std::string_view title,
                           const SideNames& names) {
  std::string page = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta "
      "name=\"viewport\" content=\"width=device-width\">\n<title>{0}</title>\n<style>{1}</style>\n"
      "</head>\n<body>\n<h1>{0}</h1>\n",
      escaped(title), style);
  std::size_t number = 0;
  for (const Exercise& exercise : exercises) {
    ++number;
    DiagramOptions diagram;
    diagram.names = names;
    diagram.theme = Theme::print;
    diagram.id = fmt::format("board-{}", number);
    page += fmt::format("<section>\n<h2>{}. <span class=\"grade\">{}</span></h2>\n{}\n<p>{}</p>\n",
                        number, std::string(static_cast<std::size_t>(exercise.grade), '*'),
                        diagram_svg(exercise.position, diagram), words(exercise.ask));
    if (exercise.kind == Exercise::Kind::choice) {
      page += "<ol class=\"choices\">\n";
      for (const Choice* choice : answers_of(exercise, number).shown)
        page += fmt::format("<li>{}</li>\n", words(choice->text));
      page += "</ol>\n";
    } else {
      page += "<div class=\"line\"></div>\n";
    }
    page += "</section>\n";
  }
  page += "<section class=\"answers\">\n<h1>Answers</h1>\n<dl>\n";
  number = 0;
  for (const Exercise& exercise : exercises) {
    ++number;
    page += fmt::format("<dt>{}.</dt><dd>{} {}</dd>\n", number,
                        words(answer_words(exercise, number)), words(exercise.why));
  }
  return page + "</dl>\n</section>\n</body>\n</html>\n";
}

Json exercise_object(const Exercise& exercise) {
  Json json{{"topic", exercise.topic},
            {"grade", exercise.grade},
            {"position", to_text(exercise.position)},
            {"kind", kind_words[static_cast<std::size_t>(exercise.kind)]},
            {"ask", exercise.ask}};
  if (exercise.kind == Exercise::Kind::number) {
    json["number"] = exercise.number;
  } else {
    json["right"] = choices_object(exercise.right);
    json["wrong"] = choices_object(exercise.wrong);
  }
  if (!exercise.claim.empty()) json["claim"] = exercise.claim;
  json["why"] = exercise.why;
  return json;
}

std::optional<Exercise> exercise_from(const Json& json) {
  if (!json.is_object()) return std::nullopt;
  Exercise exercise;
  const auto position = read_position(json.value("position", std::string{}));
  if (!position.ok()) return std::nullopt;
  exercise.position = *position;
  exercise.topic = json.value("topic", std::string{});
  exercise.grade = json.value("grade", 1);
  exercise.ask = json.value("ask", std::string{});
  exercise.why = json.value("why", std::string{});
  exercise.claim = json.value("claim", std::string{});
  exercise.number = json.value("number", 0);
  const std::string kind = json.value("kind", std::string{});
  if (kind == "play") exercise.kind = Exercise::Kind::play;
  if (kind == "number") exercise.kind = Exercise::Kind::number;
  exercise.right = choices_from(json.value("right", Json::array()));
  exercise.wrong = choices_from(json.value("wrong", Json::array()));
  if (exercise.kind != Exercise::Kind::number && exercise.right.empty()) return std::nullopt;
  return exercise;
}

}  // namespace pointwright::app

#include "finder/exercise.hpp"

/// A set of exercises as the text of a lesson.
namespace pointwright::finder {
namespace {

/// One line without what would end an entry of a question.
std::string one_line(std::string text) {
  for (char& c : text) {
    if (c == '|' || c == '\n') c = ' ';
  }
  return text;
}

std::string quoted_yaml(std::string_view text) {
  std::string result = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') result += '\\';
    result += c == '\n' ? ' ' : c;
  }
  return result + "\"";
}

void write_choices(const Exercise& exercise, std::size_t number, std::string& text) {
  // The right answer stands now here, now there.
  const std::size_t place = number * 7 % (exercise.wrong.size() + 1);
  for (std::size_t i = 0; i <= exercise.wrong.size(); ++i) {
    if (i == place) {
      const Choice& right = exercise.right.front();
      text +=
          "right: " + right.text + " | " + one_line(right.reply) + " | " + exercise.claim + "\n";
    }
    if (i == exercise.wrong.size()) break;
    const Choice& wrong = exercise.wrong[i];
    text += "wrong: " + wrong.text + " | " + one_line(wrong.reply) + "\n";
  }
}

void write_answers(const Exercise& exercise, std::size_t number, std::string& text) {
  switch (exercise.kind) {
    case Exercise::Kind::choice:
      return write_choices(exercise, number, text);
    case Exercise::Kind::number:
      text += "number: " + std::to_string(exercise.number) + " | " + exercise.claim + "\n";
      return;
    case Exercise::Kind::play:
      text += "play: ";
      for (const Choice& right : exercise.right)
        text += (&right == &exercise.right.front() ? "" : " | ") + right.text;
      text += "\n";
      for (const Choice& wrong : exercise.wrong)
        text += "wrong: " + wrong.text + " | " + one_line(wrong.reply) + "\n";
  }
}

}  // namespace

std::string as_lesson(const std::vector<Exercise>& exercises, std::string_view title,
                      std::string_view summary, std::string_view remark, const SideNames& names) {
  std::string text = "---\ntitle: " + quoted_yaml(title) + "\nsummary: " + quoted_yaml(summary) +
                     "\nsides: {light: " + quoted_yaml(names[Side::light]) +
                     ", dark: " + quoted_yaml(names[Side::dark]) + "}\n---\n";
  if (!remark.empty()) text += "\n<!-- " + std::string(remark) + " -->\n";
  std::size_t number = 0;
  for (const Exercise& exercise : exercises) {
    ++number;
    const std::string id = exercise.topic + "-" + std::to_string(number);
    text.append("\n## Exercise ").append(std::to_string(number));
    text.append("\n\n```board ").append(id).append("-board\n").append(to_text(exercise.position));
    text.append("\n```\n\n```question ").append(id).append("\nask: ").append(exercise.ask);
    text.append("\non: ").append(id).append("-board\n");
    write_answers(exercise, number, text);
    text += "why: " + one_line(exercise.why) + "\n```\n";
  }
  return text;
}

}  // namespace pointwright::finder

#include <algorithm>
#include <array>

#include "rules/ruling.hpp"
#include "tools/docs/pages.hpp"

namespace pointwright::docs {
namespace {

struct Chapter {
  Rule::About about;
  std::string_view title;
  std::string_view introduction;
};

constexpr std::array chapters{
    Chapter{Rule::About::game, "The game", "How a game is set up and won."},
    Chapter{Rule::About::turn, "The turn", "How the dice are thrown and a turn goes."},
    Chapter{Rule::About::play, "Plays",
            "The rules by which the referee refuses a play. Below each stands a play that it "
            "refuses, and what the referee says of it."},
    Chapter{Rule::About::cube, "The cube", "How the stakes are raised."},
    Chapter{Rule::About::match, "Matches", "Several games played to a number of points."},
};

std::string code(std::string_view text) {
  return "`" + std::string(text) + "`";
}

/// What the referee says of a rule's example, computed afresh.
std::string ruling_text(const Rule& rule) {
  const auto position = read_position(rule.example);
  const auto attempt = read_play(rule.attempt);
  if (!position || !attempt || !position->turn || !position->roll) return {};
  const Ruling ruling = rule_on(*position, *attempt);
  std::string text =
      "Refused: " + code(rule.attempt) + ". " + ruling.proof + "\n\nAllowed, for instance: ";
  const std::size_t shown = std::min<std::size_t>(ruling.alternatives.size(), 2);
  for (std::size_t i = 0; i < shown; ++i)
    text += (i > 0 ? ", " : "") + code(to_text(ruling.alternatives[i]));
  return text + ".\n\n";
}

std::string section(const Rule& rule) {
  std::string text = "### " + std::string(rule.id) + "\n\n**" + std::string(rule.statement) +
                     "**\n\n" + std::string(rule.explanation) + "\n\n    " +
                     std::string(rule.example) + "\n\n";
  if (!rule.attempt.empty()) text += ruling_text(rule);
  return text + "Source: " + std::string(rule.source) + ".\n\n";
}

}  // namespace

std::string rule_book_page() {
  std::string text =
      "# The rule book\n\n"
      "<!-- Made from rules/book/ by pointwright_docs; change it there. -->\n\n"
      "Every rule has a name. A lesson uses it to say why a play is refused (`illegal 8/7 6/3 "
      "because "
      "bar-first`), and the referee answers with it. Examples are [position "
      "lines](position-line.md).\n\n";
  for (const Chapter& chapter : chapters) {
    text +=
        "## " + std::string(chapter.title) + "\n\n" + std::string(chapter.introduction) + "\n\n";
    for (const Rule* rule : rulebook()) {
      if (rule->about == chapter.about) text += section(*rule);
    }
  }
  text += "What players agree on beforehand stands in [house rules](house-rules.md).\n";
  return text;
}

}  // namespace pointwright::docs

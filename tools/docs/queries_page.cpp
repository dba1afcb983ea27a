#include <string>

#include "finder/predicate.hpp"
#include "finder/tempting.hpp"
#include "tools/docs/pages.hpp"

namespace pointwright::docs {
namespace {

std::string row(const finder::PredicateKind& kind) {
  std::string forms;
  for (const std::string_view form : kind.forms) {
    if (!forms.empty()) forms += "<br>";
    forms += "`" + std::string(form) + "`";
  }
  return "| " + forms + " | " + std::string(kind.says) + " | `" + std::string(kind.example) +
         "` |\n";
}

}  // namespace

std::string queries_page() {
  std::string page =
      "# Queries: what positions can be searched for\n\n"
      "<!-- Made from finder/ by pointwright_docs; change it there. -->\n\n"
      "`pointwright find QUERY` searches for positions that make a query true, and `pointwright "
      "drill\n--query QUERY` makes exercises of them. A query is a statement of the tables below, "
      "or several\njoined with `not`, `and` and `or` (which bind in that order) and brackets:\n\n"
      "    must play larger and not bar\n"
      "    illegal hit because both-dice and (blots dark 1 or bar dark)\n"
      "    chance hit at least 20/36 and checkers light at most 3\n\n"
      "The words are those of the [claims](claims.md) of a lesson; what a query finds is printed "
      "with the\nclaims that prove it. Words in capitals stand for something of your own:\n\n"
      "| word | stands for | such as |\n| --- | --- | --- |\n"
      "| SIDE | `light` or `dark`; where it is left out, the side to play | `dark` |\n"
      "| RANGE | a number; `A to B`; `at least A`; `at most B` | `2 to 4` |\n"
      "| FRACTION | the same, in fractions of the 36 rolls | `at least 11/36`, `3/4` |\n"
      "| AMOUNT | the same, in points won on average | `at least 0.100` |\n"
      "| RULE | a rule of play of the [rule book](rule-book.md) | `larger-die` |\n"
      "| PLAY | a play in the trade's notation | `bar/22 6/5` |\n"
      "| EVENT | an [event](events.md): one word with its number, or several in brackets | `hit`, "
      "`(hit and safe)` |\n"
      "| PLACE | a point as the side counts, `bar` or `off` | `5` |\n"
      "| D-D, D | a roll; the number of a die | `6-4`, `6` |\n\n"
      "## About a roll and its plays\n\n"
      "| written | true when | for instance |\n| --- | --- | --- |\n";
  for (const auto& kind : finder::kinds_about_plays()) page += row(kind);
  page +=
      "\nThe name of a rule of play alone, such as `larger-die`, says the same as `illegal because "
      "larger-die`.\n\n"
      "## About the checkers\n\n"
      "| written | true when | for instance |\n| --- | --- | --- |\n";
  for (const auto& kind : finder::kinds_about_positions()) page += row(kind);
  page +=
      "\n## Plays that tempt\n\n"
      "Nearly every position has some scrap of a play that a rule refuses: one die played and the "
      "other\nforgotten, say. `illegal because RULE` asks for plays that somebody might seriously "
      "try:\n\n"
      "| rule | plays that count |\n| --- | --- |\n";
  for (const finder::Temptation& temptation : finder::temptations()) {
    page +=
        "| `" + std::string(temptation.rule->id) + "` | " + std::string(temptation.says) + " |\n";
  }
  page +=
      "\nEach is put before the referee, and its answer is the proof. `illegal PLAY because RULE` "
      "asks about\nany play.\n";
  return page;
}

}  // namespace pointwright::docs

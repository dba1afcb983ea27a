#include "chance/event.hpp"
#include "tools/docs/pages.hpp"

namespace pointwright::docs {
namespace {

std::string written(const chance::EventKind& kind) {
  using Argument = chance::EventKind::Argument;
  const std::string name(kind.name);
  switch (kind.argument) {
    case Argument::none:
      return "`" + name + "`";
    case Argument::optional_point:
      return "`" + name + "` or `" + name + " POINT`";
    case Argument::point:
      return "`" + name + " POINT`";
    case Argument::count:
      break;
  }
  return "`" + name + "` or `" + name + " NUMBER`";
}

}  // namespace

std::string events_page() {
  std::string page =
      "# Events: what a roll can be asked for\n\n"
      "<!-- Made from chance/event_kinds.cpp by pointwright_docs; change it there. -->\n\n"
      "`pointwright chances POSITION EVENT` and the claim `chance` count, of the 36 rolls, those "
      "that\nbring an event about. Points are numbered as the side to roll counts them.\n\n"
      "| event | happens when |\n| --- | --- |\n";
  for (const chance::EventKind& kind : chance::event_kinds()) {
    page += "| " + written(kind) + " | " + std::string(kind.statement) + " |\n";
  }
  page +=
      "\n## Can, must, cannot\n\n"
      "- `hit 5` asks whether *some* legal play of a roll does it: the roll can hit.\n"
      "- `must hit 5` asks whether *every* legal play does: the roll leaves no choice.\n"
      "- `cannot hit 5` asks whether *no* legal play does.\n\n"
      "A roll with no legal move leaves the board as it is, and is judged as that.\n\n"
      "## And, or, not\n\n"
      "Events are joined with `not`, `and`, `or`, binding in that order, and with brackets: "
      "`hit and\nsafe`, `point 4 or (cover 7 and safe)`, `must not hit`. A combination is asked of "
      "one play at a\ntime: `hit and safe` counts the rolls that have a play which does both.\n\n"
      "Every count is exact: all legal plays of all 21 different rolls are made.\n";
  return page;
}

}  // namespace pointwright::docs

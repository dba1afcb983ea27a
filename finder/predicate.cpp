#include "finder/predicate.hpp"

#include <cstdlib>

#include "rules/text.hpp"

namespace pointwright::finder {

const std::vector<const PredicateKind*>& predicate_kinds() {
  static const std::vector<const PredicateKind*> all = [] {
    std::vector<const PredicateKind*> kinds;
    for (const PredicateKind& kind : kinds_about_plays()) kinds.push_back(&kind);
    for (const PredicateKind& kind : kinds_about_positions()) kinds.push_back(&kind);
    return kinds;
  }();
  return all;
}

std::uint8_t needs(const Predicate& predicate, Side mover) {
  switch (predicate.kind->subject) {
    case PredicateKind::Subject::camp:
      return knows(predicate.side.value_or(mover));
    case PredicateKind::Subject::board:
      return knows_board;
    case PredicateKind::Subject::roll:
      return knows_roll;
    case PredicateKind::Subject::turn:
      break;
  }
  return knows_all;
}

std::string to_text(Range range, int per) {
  const auto number = [&](int n) {
    if (per == 1000) {
      std::string part = std::to_string(std::abs(n) % 1000);
      part.insert(0, 3 - part.size(), '0');
      return (n < 0 ? "-" : "") + std::to_string(std::abs(n) / 1000) + "." + part;
    }
    return std::to_string(n) + (per == 0 ? "" : "/" + std::to_string(per));
  };
  if (range.most >= boundless) return "at least " + number(range.least);
  if (range.least <= -boundless) return "at most " + number(range.most);
  if (range.least == range.most) return number(range.least);
  return number(range.least) + " to " + number(range.most);
}

std::string to_text(const Predicate& p) {
  const std::string_view form = p.kind->forms[p.form];
  std::string result;
  for (const text::Word& word : text::words(form, {0, form.size()}, false)) {
    if (!result.empty()) result += ' ';
    if (word.text == "SIDE")
      result += name(*p.side);
    else if (word.text == "RANGE")
      result += to_text(p.range);
    else if (word.text == "FRACTION")
      result += to_text(p.range, 36);
    else if (word.text == "AMOUNT")
      result += to_text(p.range, 1000);
    else if (word.text == "RULE")
      result += p.rule->id;
    else if (word.text == "PLAY")
      result += p.play_text;
    else if (word.text == "PLACE")
      result += pointwright::to_text(p.place);
    else if (word.text == "D-D")
      result += pointwright::to_text(*p.roll);
    else if (word.text == "D")
      result += std::to_string(p.range.least);
    else if (word.text == "EVENT")
      result += p.event->event.form() == chance::Event::Form::simple
                    ? chance::to_text(p.event->event)
                    : "(" + chance::to_text(p.event->event) + ")";
    else
      result += word.text;
  }
  return result;
}

}  // namespace pointwright::finder

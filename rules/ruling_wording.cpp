#include "rules/ruling_wording.hpp"

#include <array>
#include <cstddef>

#include "rules/position.hpp"
#include "rules/step.hpp"

namespace pointwright::wording {

std::string number_word(int n) {
  static constexpr std::array<std::string_view, 16> words{
      "no",    "one",  "two", "three",  "four",   "five",     "six",      "seven",
      "eight", "nine", "ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen"};
  const auto i = static_cast<std::size_t>(n);
  return i < words.size() ? std::string(words[i]) : std::to_string(n);
}

std::string checkers(int n) {
  return std::string(number_word(n)) + (n == 1 ? " checker" : " checkers");
}

std::string listed(const std::vector<std::string>& items, std::string_view last) {
  std::string result;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0) result += i + 1 == items.size() ? " " + std::string(last) + " " : ", ";
    result += items[i];
  }
  return result;
}

std::string possessive(const std::string& name) {
  return name + (name.ends_with('s') ? "'" : "'s");
}

std::string sentence(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z' && !text.starts_with("bar/"))
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string step_text(Place from, Place to) {
  return to_text(from) + "/" + to_text(to);
}

std::string Speaker::point(Place place) const {
  return possessive(mover()) + " " + to_text(place);
}

std::string Speaker::both_numbers(Place point) const {
  return this->point(point) + " (" + possessive(other()) + " " + to_text(mirrored(point)) + ")";
}

std::string Speaker::holding(const Board& board, Place point) const {
  return checkers(board.count(opponent(side_), mirrored(point))) + " on " + both_numbers(point);
}

std::string Speaker::holders(const Board& board, Place point) const {
  return other() + " has " + holding(board, point);
}

std::string Speaker::why_not(const Board& board, int die) const {
  const std::string number = std::to_string(die);
  if (board.count(side_, bar_place) > 0) {
    const Place point = landing(bar_place, die);
    return "a " + number + " would come in on " + both_numbers(point) + ", where " + other() +
           " has " + checkers(board.count(opponent(side_), mirrored(point)));
  }
  std::vector<std::string> landings;
  bool too_soon = false;
  for (Place from = bar_place; from > off_place; --from) {
    const Step step = judge_step(board, side_, from, die);
    if (step == Step::blocked) landings.push_back(to_text(landing(from, die)));
    too_soon |= step == Step::not_all_home || step == Step::higher_first;
  }
  const bool single = landings.size() == 1;
  return "a " + number + " would have to land on " + possessive(mover()) + " " +
         listed(landings, "or") + ", which " + other() + " holds" + (single ? "" : " each time") +
         (too_soon ? ", and no checker may be borne off yet" : "");
}

}  // namespace pointwright::wording

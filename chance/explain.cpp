#include <algorithm>

#include "chance/next_roll.hpp"
#include "rules/text.hpp"

namespace pointwright::chance {
namespace {

std::string listed(const std::vector<std::string>& items) {
  std::string result;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i != 0) result += i + 1 == items.size() ? " and " : ", ";
    result += items[i];
  }
  return result;
}

std::vector<std::string> texts(const std::vector<Roll>& rolls) {
  std::vector<std::string> result;
  result.reserve(rolls.size());
  for (const Roll roll : rolls) result.push_back(to_text(roll));
  return result;
}

int ways(const std::vector<Roll>& rolls) {
  int sum = 0;
  for (const Roll roll : rolls) sum += roll.ways();
  return sum;
}

/// Dice that answer whatever the other die shows, and the single rolls besides them.
struct Grouped {
  std::vector<std::string> whole_dice;
  int whole_ways = 0;
  std::vector<Roll> singles;
};

Grouped group(const Count& count) {
  Grouped groups;
  std::array<bool, 7> whole{};
  for (std::size_t die = 1; die <= 6; ++die) {
    const auto& row = count.grid[die - 1];
    whole[die] = std::all_of(row.begin(), row.end(), [](bool answers) { return answers; });
    if (whole[die]) groups.whole_dice.push_back("a " + std::to_string(die));
  }
  for (const Roll roll : count.rolls) {
    if (whole[static_cast<std::size_t>(roll.high())] || whole[static_cast<std::size_t>(roll.low())])
      groups.whole_ways += roll.ways();
    else
      groups.singles.push_back(roll);
  }
  return groups;
}

bool asks_for_a_hit(const Event& event) {
  return event.form() == Event::Form::simple &&
         std::string_view(event.kind().name).starts_with("hit");
}

/// The board without the points that the other side holds: what would be, were nothing blocked.
Board unblocked(const Board& board, Side side) {
  Board open = board;
  Camp& theirs = open.of(opponent(side));
  for (Place point = 1; point <= 24; ++point) {
    if (theirs[point] < 2) continue;
    theirs[off_place] = static_cast<std::uint8_t>(theirs[off_place] + theirs[point]);
    theirs[point] = 0;
  }
  return open;
}

std::string either(const std::vector<std::string>& items) {
  std::string result = listed(items);
  if (items.size() > 1) result.replace(result.rfind(" and "), 5, " or ");
  return result;
}

}  // namespace

std::string explain(const NextRoll& next, const Query& query, const SideNames& names) {
  const Count counted = count(next, query);
  std::string result = names[next.side()] + " " + std::string(verb(query.mode)) + " " +
                       phrase(query.event) + " with " + std::to_string(counted.ways) +
                       " of the 36 rolls";
  if (counted.ways > 0 && counted.ways < 36) {
    const Grouped groups = group(counted);
    std::vector<std::string> parts;
    if (!groups.whole_dice.empty())
      parts.push_back(std::to_string(groups.whole_ways) + " that show " +
                      either(groups.whole_dice));
    if (!groups.singles.empty())
      parts.push_back(std::to_string(ways(groups.singles)) + " as " +
                      listed(texts(groups.singles)));
    result += ": " + (parts.size() == 2 ? parts[0] + ", and " + parts[1] : parts[0]);
    result += ". That is " + fraction_of_36(counted.ways);
  }
  result += ".";

  if (query.mode != Query::Mode::can || !asks_for_a_hit(query.event)) return result;
  const NextRoll open(unblocked(next.board(), next.side()), next.side());
  const Count unhindered = count(open, query);
  std::vector<Roll> blocked;
  for (const Roll roll : unhindered.rolls) {
    if (std::find(counted.rolls.begin(), counted.rolls.end(), roll) == counted.rolls.end())
      blocked.push_back(roll);
  }
  // An open board can also take a hit away (both dice must then be played): say nothing in that
  // case.
  if (!blocked.empty() && unhindered.ways == counted.ways + ways(blocked))
    result += " With nothing in the way it would be " +
              std::to_string(counted.ways + ways(blocked)) + ": " + listed(texts(blocked)) +
              (blocked.size() == 1 ? " is" : " are") + " blocked.";
  return result;
}

}  // namespace pointwright::chance

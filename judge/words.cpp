#include "judge/words.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "rules/position.hpp"

namespace pointwright::judge::words {
namespace {

bool contains(const std::vector<Roll>& rolls, Roll roll) {
  return std::ranges::find(rolls, roll) != rolls.end();
}

std::vector<std::string> texts(const std::vector<Roll>& rolls) {
  std::vector<std::string> result;
  result.reserve(rolls.size());
  for (const Roll roll : rolls) result.push_back(to_text(roll));
  return result;
}

/// Whether every roll with that die is among them.
bool is_whole(const std::vector<Roll>& rolls, int die) {
  for (int other = 1; other <= 6; ++other) {
    if (!contains(rolls, Roll(die, other))) return false;
  }
  return true;
}

bool has_every_double(const std::vector<Roll>& rolls) {
  return std::ranges::count_if(rolls, &Roll::is_double) == 6;
}

}  // namespace

std::string decimal(double value, int decimals) {
  long long scale = 1;
  for (int i = 0; i < decimals; ++i) scale *= 10;
  const long long scaled = std::llround(std::abs(value) * static_cast<double>(scale));
  std::string result = std::to_string(scaled / scale);
  if (decimals > 0) {
    const std::string part = std::to_string(scaled % scale);
    result += "." + std::string(static_cast<std::size_t>(decimals) - part.size(), '0') + part;
  }
  return value < 0 && scaled != 0 ? "-" + result : result;
}

std::string amount(double value) {
  return decimal(std::abs(value), 3);
}

std::string percent(double chance) {
  return decimal(100 * chance, 1) + "%";
}

std::string listed(const std::vector<std::string>& items, std::string_view last) {
  std::string result;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i != 0) result += i + 1 == items.size() ? " " + std::string(last) + " " : ", ";
    result += items[i];
  }
  return result;
}

std::string listed(const std::vector<Place>& places) {
  std::vector<std::string> items;
  items.reserve(places.size());
  for (const Place place : places) items.push_back(to_text(place));
  return listed(items);
}

std::string rolls(const std::vector<Roll>& rolls) {
  constexpr int few = 3;
  constexpr std::size_t many = 8;
  if (rolls.size() == all_rolls().size()) return "every roll";
  if (std::ssize(rolls) + few >= std::ssize(all_rolls())) {
    std::vector<Roll> others;
    std::ranges::copy_if(all_rolls(), std::back_inserter(others),
                         [&](Roll roll) { return !contains(rolls, roll); });
    return "every roll but " + listed(texts(others));
  }
  std::vector<std::string> items;
  std::array<bool, 7> whole{};
  for (int die = 6; die >= 1; --die) {
    whole[static_cast<std::size_t>(die)] = is_whole(rolls, die);
    if (is_whole(rolls, die)) items.push_back("any " + std::to_string(die));
  }
  const bool doubles = has_every_double(rolls);
  if (doubles) items.emplace_back("any double");
  std::vector<Roll> singles;
  std::ranges::copy_if(rolls, std::back_inserter(singles), [&](Roll roll) {
    return !whole[static_cast<std::size_t>(roll.high())] &&
           !whole[static_cast<std::size_t>(roll.low())] && !(doubles && roll.is_double());
  });
  std::ranges::reverse(singles);  // the large rolls first
  if (singles.size() > many) {
    // The reader is told how many rolls it is in any case; these show which sort.
    singles.erase(singles.begin() + few, singles.end());
    const std::vector<std::string> shown = texts(singles);
    items.insert(items.end(), shown.begin(), shown.end());
    return "rolls such as " + listed(items);
  }
  const std::vector<std::string> single_texts = texts(singles);
  items.insert(items.end(), single_texts.begin(), single_texts.end());
  return listed(items);
}

}  // namespace pointwright::judge::words

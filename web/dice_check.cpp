#include "web/dice_check.hpp"

#include <algorithm>

#include "web/sealed_dice.hpp"

namespace pointwright::web {

std::optional<NotedThrow> read_noted_throw(std::string_view text) {
  if (text == "?") return NotedThrow{};
  const auto die = [](char c) { return c >= '1' && c <= '6'; };
  if (text.size() != 3 || !die(text[0]) || text[1] != '-' || !die(text[2])) return std::nullopt;
  return NotedThrow{std::array{text[0] - '0', text[2] - '0'}};
}

bool CheckedThrow::holds() const {
  if (!noted.dice || *noted.dice == made) return true;
  return !noted.in_order && *noted.dice == std::array{made[1], made[0]};
}

std::vector<CheckedThrow> check_throws(std::string_view seed, std::string_view words, int first,
                                       std::vector<NotedThrow> noted, std::size_t count) {
  noted.resize(std::max(count, noted.size()));
  std::vector<CheckedThrow> checked;
  int number = first;
  for (const NotedThrow& each : noted) {
    checked.push_back({number, sealed_throw(seed, words, number), each});
    ++number;
  }
  return checked;
}

bool is_digest(std::string_view text) {
  constexpr std::size_t digits = 64;
  return text.size() == digits &&
         text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

}  // namespace pointwright::web

#include "rules/roll.hpp"

namespace pointwright {

std::string to_text(Roll roll) {
  return std::to_string(roll.high()) + "-" + std::to_string(roll.low());
}

const std::array<Roll, 21>& all_rolls() {
  static constexpr std::array<Roll, 21> rolls{
      Roll{1, 1}, Roll{2, 1}, Roll{2, 2}, Roll{3, 1}, Roll{3, 2}, Roll{3, 3}, Roll{4, 1},
      Roll{4, 2}, Roll{4, 3}, Roll{4, 4}, Roll{5, 1}, Roll{5, 2}, Roll{5, 3}, Roll{5, 4},
      Roll{5, 5}, Roll{6, 1}, Roll{6, 2}, Roll{6, 3}, Roll{6, 4}, Roll{6, 5}, Roll{6, 6}};
  return rolls;
}

}  // namespace pointwright

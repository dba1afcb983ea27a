#include "chance/bearoff_plays.hpp"

#include <algorithm>

#include "chance/bearoff_steps.hpp"
#include "rules/roll.hpp"

namespace pointwright {
namespace {

/// The ranks after one more die, from any of several ranks.
std::vector<std::uint32_t> step_all(const BearoffFamily& family,
                                    const std::vector<std::uint32_t>& from, int die) {
  std::vector<std::uint32_t> result;
  for (const std::uint32_t rank : from) {
    const BearoffSteps steps(family, rank);
    result.insert(result.end(), steps.of(die).begin(), steps.of(die).end());
  }
  std::sort(result.begin(), result.end());
  result.erase(std::unique(result.begin(), result.end()), result.end());
  return result;
}

std::vector<std::uint32_t> play_roll(const BearoffFamily& family, std::uint32_t rank, Roll roll) {
  std::vector<std::uint32_t> result{rank};
  if (roll.is_double()) {
    for (int dice = 0; dice < 4; ++dice) result = step_all(family, result, roll.high());
    return result;
  }
  const auto high_first = step_all(family, step_all(family, result, roll.high()), roll.low());
  const auto low_first = step_all(family, step_all(family, result, roll.low()), roll.high());
  result.clear();
  std::set_union(high_first.begin(), high_first.end(), low_first.begin(), low_first.end(),
                 std::back_inserter(result));
  return result;
}

}  // namespace

BearoffPlays::BearoffPlays(const BearoffFamily& family) {
  starts_.reserve(std::size_t{family.size()} * 21 + 1);
  starts_.push_back(0);
  for (std::uint32_t rank = 0; rank < family.size(); ++rank) {
    for (const Roll roll : all_rolls()) {
      const auto after = play_roll(family, rank, roll);
      ranks_.insert(ranks_.end(), after.begin(), after.end());
      starts_.push_back(static_cast<std::uint32_t>(ranks_.size()));
    }
  }
}

}  // namespace pointwright

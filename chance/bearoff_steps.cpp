#include "chance/bearoff_steps.hpp"

namespace pointwright {

BearoffSteps::BearoffSteps(const BearoffFamily& family, std::uint32_t rank, Camp camp) {
  if (rank == 0) {
    for (std::size_t die = 1; die <= 6; ++die) steps_[die].size = 1;
    return;
  }
  auto last = static_cast<std::size_t>(family.points());
  while (camp[last] == 0) --last;
  for (std::size_t die = 1; die <= 6; ++die) {
    Ranks& ranks = steps_[die];
    for (std::size_t from = last; from >= 1; --from) {
      if (camp[from] == 0) continue;
      // Off needs every checker home, and a die larger than the point bears off only the rearmost.
      if (from <= die && (last > last_home_point || (from < die && from != last))) continue;
      const std::size_t to = from > die ? from - die : off_place;
      --camp[from];
      ++camp[to];
      ranks.of[ranks.size++] = family.rank(camp);
      ++camp[from];
      --camp[to];
    }
  }
}

}  // namespace pointwright

#include "chance/race_counts.hpp"

#include <algorithm>
#include <cmath>

#include "chance/race.hpp"

namespace pointwright::race_counts {

int pips(const Camp& camp) {
  int sum = 0;
  for (std::size_t place = 1; place < camp.size(); ++place) {
    sum += static_cast<int>(place) * camp[place];
  }
  return sum;
}

int checkers_left(const Camp& camp) {
  int sum = 0;
  for (std::size_t place = 1; place < camp.size(); ++place) sum += camp[place];
  return sum;
}

int gaps(const Camp& camp, std::size_t first, std::size_t last) {
  int empty = 0;
  for (std::size_t point = first; point <= last; ++point) empty += camp[point] == 0 ? 1 : 0;
  return empty;
}

double thorp(const Camp& camp) {
  return pips(camp) + 2 * checkers_left(camp) + camp[1] - (6 - gaps(camp, 1, 6));
}

int keith_extra(const Camp& camp) {
  return 2 * std::max(0, camp[1] - 1) + std::max(0, camp[2] - 1) + std::max(0, camp[3] - 3) +
         gaps(camp, 4, 6);
}

int with_seventh(int count) {
  return count * 8 / 7;
}

double ward_extra(const Camp& camp) {
  int crossovers = 0;
  for (std::size_t place = last_home_point + 1; place < camp.size(); ++place) {
    crossovers += camp[place] * ((static_cast<int>(place) - 1) / 6);
  }
  return 2 * std::max(0, camp[1] - 2) + std::max(0, camp[2] - 2) + std::max(0, camp[3] - 3) +
         gaps(camp, 4, 6) + 0.5 * crossovers;
}

double last_take(double count) {
  return count <= low_wastage_short ? std::floor((count - 5) / 7) : std::floor(count / 10 + 1);
}

double effective(const Camp& camp) {
  const BearoffFamily& home = home_table().family();
  if (home.contains(camp)) return home_table().mean(home.rank(camp)) * mean_roll_pips;
  const auto side = race_side(camp);
  return side ? side->effective_pips : pips(camp) + 8.0;
}

}  // namespace pointwright::race_counts

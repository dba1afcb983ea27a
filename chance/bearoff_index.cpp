#include "chance/bearoff_index.hpp"

#include <cstddef>

namespace pointwright {

BearoffFamily::BearoffFamily(int points, int checkers) : points_(points), checkers_(checkers) {
  ways_[0].fill(1);
  for (std::size_t p = 1; p <= static_cast<std::size_t>(points); ++p) {
    ways_[p][0] = 1;
    // Either one more checker stands on point p, or none does and p is out of play.
    for (std::size_t n = 1; n <= static_cast<std::size_t>(checkers); ++n) {
      ways_[p][n] = ways_[p][n - 1] + ways_[p - 1][n];
    }
  }
  size_ = ways(points, checkers);
}

bool BearoffFamily::contains(const Camp& camp) const {
  int left = 0;
  for (std::size_t place = 1; place < camp.size(); ++place) {
    if (place > static_cast<std::size_t>(points_) && camp[place] != 0) return false;
    left += camp[place];
  }
  return left <= checkers_;
}

Camp BearoffFamily::camp(std::uint32_t rank) const {
  Camp camp{};
  int left = checkers_;
  for (int point = points_; point >= 1; --point) {
    int here = 0;
    while (here < left && rank >= ways(point, left) - ways(point, left - here - 1)) ++here;
    rank -= ways(point, left) - ways(point, left - here);
    left -= here;
    camp[static_cast<std::size_t>(point)] = static_cast<std::uint8_t>(here);
  }
  camp[off_place] = static_cast<std::uint8_t>(checkers_per_side - (checkers_ - left));
  return camp;
}

}  // namespace pointwright

#pragma once

#include <span>
#include <string_view>

namespace pointwright::judge {

/// How much a play costs beside the best one, in words of our own. The numbers are the whole
/// meaning of the words.
struct Grade {
  std::string_view name;  ///< "a slip"
  double from = 0;        ///< it costs at least this, in points a game
};

/// The grades, cheapest first. Below `from` of the second the play is as good as the best, as far
/// as such numbers can be trusted.
std::span<const Grade> grades();

/// The grade of a play that costs `cost`. Precondition: cost >= 0.
const Grade& grade_of(double cost);

}  // namespace pointwright::judge

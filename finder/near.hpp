#pragma once

#include <cstdint>
#include <vector>

#include "finder/search.hpp"

/// The smallest change to a given position that makes a query true, or false.
namespace pointwright::finder {

/// One checker put elsewhere: from a place to another, as its side counts; off stands for beside
/// the board.
struct Nudge {
  Side side = Side::light;
  Place from = 0;
  Place to = 0;
};

/// A change and what it leads to.
struct Neighbour {
  std::vector<Nudge> nudges;
  Finding finding;
};

struct Neighbours {
  bool true_already = false;     ///< the position as it is answers the query as wanted
  int checkers = 0;              ///< how many checkers the neighbours move; 0 if none was found
  std::vector<Neighbour> found;  ///< all with that many, the slightest first
  std::int64_t looked_at = 0;    ///< every change of fewer checkers was tried, and of this many
};

/// Tries every change of one checker, then every change of two. `wanted.roll` is the roll; if it is
/// open and the query needs one, each roll counts. With `untrue` it looks for changes that make the
/// query false (with every open roll).
Neighbours neighbours(const Wanted& wanted, const Board& board, bool untrue);

}  // namespace pointwright::finder

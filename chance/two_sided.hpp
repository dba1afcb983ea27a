#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "chance/bearoff_index.hpp"
#include "chance/table_build.hpp"
#include "chance/two_sided_cube.hpp"

namespace pointwright {

/// The four numbers stored for one pair of positions: see CubeValues.
template <class Real>
struct TwoSidedEntry {
  Real win;
  Real hold_centred;
  Real hold_mine;
  Real theirs;
};

/// Solves every race in which each side has at most `checkers` left, all in its home board.
/// `entries` receives the answers, [rank of the side that waits][rank of the side on roll].
/// Needs no memory beyond `entries` but the lists of plays (about 8 MB for ten checkers).
///
/// Returns false if the host stopped the build. Precondition: entries.size() == family.size()².
template <class Real>
bool solve_two_sided(const BearoffFamily& family, std::span<TwoSidedEntry<Real>> entries,
                     const BuildHost& host);

/// Races in which both sides have at most a number of checkers left, all home. Both have borne off
/// checkers, so no gammon can happen: the domain is every such race, and only those.
/// Exact to rounding: about 1e-15 with Real = double, 1e-6 with float (measured in
/// tests/chance/two_sided_test.cpp).
template <class Real>
class TwoSidedTable {
 public:
  /// Looks into entries that solve_two_sided made, which must outlive the table.
  TwoSidedTable(int checkers, std::span<const TwoSidedEntry<Real>> entries)
      : family_(last_home_point, checkers), entries_(entries) {}

  [[nodiscard]] const BearoffFamily& family() const { return family_; }
  [[nodiscard]] int checkers() const { return family_.checkers(); }

  /// Precondition: both ranks are of family() and not 0, the rank of a finished side.
  [[nodiscard]] CubeValues values(std::uint32_t on_roll, std::uint32_t waiting) const {
    const auto& entry = entries_[std::size_t{waiting} * family_.size() + on_roll];
    return {static_cast<double>(entry.win), static_cast<double>(entry.hold_centred),
            static_cast<double>(entry.hold_mine), static_cast<double>(entry.theirs)};
  }

 private:
  BearoffFamily family_;
  std::span<const TwoSidedEntry<Real>> entries_;
};

extern template bool solve_two_sided(const BearoffFamily&, std::span<TwoSidedEntry<float>>,
                                     const BuildHost&);
extern template bool solve_two_sided(const BearoffFamily&, std::span<TwoSidedEntry<double>>,
                                     const BuildHost&);

/// Up to six checkers a side: 924² pairs, 27 MB. Built at first use.
const TwoSidedTable<double>& small_races();

}  // namespace pointwright

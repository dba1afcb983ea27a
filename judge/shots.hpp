#pragma once

#include "judge/sight.hpp"

namespace pointwright::judge {

/// Counts the throws of one side that hit, and the pips that they cost, into `ways` and `lost`.
/// Obligations other than that of entering first are left aside.
void count_shots(const Sight& sight, Sums& sums);

}  // namespace pointwright::judge

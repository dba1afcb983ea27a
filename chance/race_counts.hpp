#pragma once

#include "chance/rules_of_thumb.hpp"

/// The counts that the rules of thumb are made of: what the rules reckon with and what their sums
/// write out are the same numbers.
namespace pointwright::race_counts {

int pips(const Camp& camp);
int checkers_left(const Camp& camp);
/// Empty points from `first` to `last`.
int gaps(const Camp& camp, std::size_t first, std::size_t last);

double thorp(const Camp& camp);
/// Above this count Thorp's rule adds a tenth to the count of the side on roll.
inline constexpr double thorp_long = 30;

int keith_extra(const Camp& camp);
/// The count of the side on roll with its seventh, rounded down.
int with_seventh(int count);

/// What Ward adds to the pips for the way in which the checkers stand.
double ward_extra(const Camp& camp);

/// The most pips by which a side may be behind and take, for a count of the side on roll.
double last_take(double count);
/// Up to this count a seventh is reckoned with, above it a tenth.
inline constexpr double low_wastage_short = 62;

/// Mean rolls times 49/6, exact where the tables of one side reach.
double effective(const Camp& camp);
/// The wastage of the least wasteful positions; without it effective counts are as plain ones.
inline constexpr double least_wastage = 7;

}  // namespace pointwright::race_counts

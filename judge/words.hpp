#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "rules/board.hpp"
#include "rules/roll.hpp"

/// The words and numbers of which reasons are made. Nothing here uses a locale or a stream.
namespace pointwright::judge::words {

/// The number with that many decimals, rounded half away from zero; never "-0.0".
/// Precondition: |value| < 1e9 and 0 <= decimals <= 9.
std::string decimal(double value, int decimals);

/// An amount without a sign, to three decimals: "0.146".
std::string amount(double value);

/// A chance from 0 to 1 as "51.9%".
std::string percent(double chance);

/// "a", "a and b", "a, b and c"; the last word may be another.
std::string listed(const std::vector<std::string>& items, std::string_view last = "and");

/// Places, as they are written: "24, 23 and 10".
std::string listed(const std::vector<Place>& places);

/// Rolls as a player says them, whole dice first: "any 4, 6-3 and 5-5". A long list is told by what
/// it leaves out, or by its first rolls: "every roll but 6-6". Precondition: not empty, no roll
/// twice, in the order of all_rolls().
std::string rolls(const std::vector<Roll>& rolls);

}  // namespace pointwright::judge::words

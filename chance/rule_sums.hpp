#pragma once

#include <string>

#include "chance/rules_of_thumb.hpp"

/// The sum of each rule of thumb for one race, as a teacher writes it on the board, up to the
/// threshold that decides.
namespace pointwright::rule_sums {

std::string per_cent(const RaceTalk& talk);
std::string thorp(const RaceTalk& talk);
std::string ward(const RaceTalk& talk);
std::string keith(const RaceTalk& talk);
std::string kleinman(const RaceTalk& talk);
std::string effective(const RaceTalk& talk);
std::string low_wastage(const RaceTalk& talk);

}  // namespace pointwright::rule_sums

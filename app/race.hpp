#pragma once

#include <string_view>

#include "app/ending_tables.hpp"
#include "app/json.hpp"
#include "rules/position.hpp"
#include "rules/result.hpp"

namespace pointwright::app {

/// What a race is worth: {"position", "on_roll", "light", "dark", "win", "known", "error", "how"},
/// and where they apply "gammon", "cube" and "rules_of_thumb". Each side has {"pips", "mean_rolls",
/// "effective_pips", "wastage"}, which are exact; `win` is a chance for each side, without a cube.
/// Precondition: the position has a turn.
Result<Json, Faults> race_object(const Position& position, EndingTables& tables);

/// Answers one line of a batch.
Result<Json, Failure> answer_race(std::string_view line, EndingTables& tables);

}  // namespace pointwright::app

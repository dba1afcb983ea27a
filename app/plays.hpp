#pragma once

#include "app/json.hpp"
#include "rules/position.hpp"

namespace pointwright::app {

/// {"position": …, "plays": [{"play": "13/7 8/7", "after": "light …; dark …"}, …]}, one entry for
/// each distinct resulting position; none when no move is legal.
/// Precondition: the position has a turn and a roll.
Json plays_object(const Position& position);

/// Answers one line of a batch.
Result<Json, Failure> answer_plays(std::string_view line);

}  // namespace pointwright::app

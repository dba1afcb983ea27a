#pragma once

#include <string_view>

#include "app/io.hpp"
#include "app/json.hpp"
#include "rules/position.hpp"
#include "rules/ruling.hpp"

namespace pointwright::app {

/// {"position", "attempt", "allowed": true, "play", "after"} or {"position", "attempt",
/// "allowed": false, "rule", "statement", "proof", "alternatives": [play, …]}.
Json ruling_object(const Position& position, std::string_view attempt, const Ruling& ruling);

/// A refusal for a person: the rule, the proof, and a few legal plays. Precondition: refused.
std::string refusal_text(const Ruling& ruling, const Io& io);

/// Answers one line of a batch: "POSITION | PLAY".
Result<Json, Failure> answer_rule(std::string_view line);

}  // namespace pointwright::app

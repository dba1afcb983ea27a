#pragma once

#include <optional>
#include <string_view>

#include "app/failure.hpp"
#include "app/position_input.hpp"
#include "judge/evaluator.hpp"
#include "rules/position.hpp"

/// What the verbs share that ask the judge.
namespace pointwright::app {

/// Why the judge cannot say what a position is worth, with the whole line underlined: the game or
/// the match is over, or the match is longer than the match table. Precondition: it has a turn.
std::optional<Failure> unfit(const Position& position, const GivenLine& given);

/// How a number that comes from there is known: a word of app/numbers.hpp.
std::string_view known_word(judge::Origin origin);

}  // namespace pointwright::app

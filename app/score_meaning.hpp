#pragma once

#include <string>

#include "app/io.hpp"
#include "app/match.hpp"
#include "rules/position.hpp"

namespace pointwright::app {

/// What a score means, in words and sums. Same precondition as `score_object`.
std::string score_text(const Position& position, const GivenTable& given, const Rates& rates,
                       const Io& io);

}  // namespace pointwright::app

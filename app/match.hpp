#pragma once

#include <string>

#include "app/json.hpp"
#include "chance/gammon_shares.hpp"
#include "chance/match_table.hpp"
#include "rules/position.hpp"
#include "rules/result.hpp"

namespace pointwright::app {

/// A match table and where it came from.
struct GivenTable {
  chance::MatchTable table;
  std::string file{};  ///< empty: computed
};

/// The gammons that take points count; none unless they are given.
using Rates = chance::GammonRates;

/// What a score means: {"match", "cube", "needs", "game", "chances", "gammon_values", "offers",
/// "gammons_counted", "known", "table"}. Chances are parts of 1, to four decimals. `game` is
/// "before-crawford", "crawford", "after-crawford" or "last" (both sides need one point). `offers`
/// has an entry for each side that may double and gain by it. Precondition: the position has a
/// match, and neither side needs more than the table's size.
Json score_object(const Position& position, const GivenTable& given, const Rates& rates = {});

/// Answers one line of a batch: a position line with a match part.
Result<Json, Failure> answer_match(std::string_view line, const GivenTable& given,
                                   const Rates& rates = {});

}  // namespace pointwright::app

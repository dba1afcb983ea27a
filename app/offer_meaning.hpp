#pragma once

#include <optional>
#include <string>

#include "app/failure.hpp"
#include "app/io.hpp"
#include "app/json.hpp"
#include "chance/gammon_shares.hpp"
#include "chance/match_table.hpp"
#include "rules/position.hpp"
#include "rules/result.hpp"

/// What an offer of the cube means in numbers, at a score and for points: take points, doubling
/// points and their sums, with the gammons that were asked for.
namespace pointwright::app {

/// The value of --gammons; without one no gammons are counted.
Result<chance::GammonRates, Failure> read_rates(const std::optional<std::string>& text);

/// Which gammons the take points count, as a sentence.
std::string rates_sentence(const chance::GammonRates& rates);

/// {"light", "dark"}, shares of the games won; null where none are counted.
Json rates_object(const chance::GammonRates& rates);

/// A double by `side` at the score of a match: words and sums, or {"by", "cube", "taker", "drop",
/// "take_and_win", "take_and_lose", "take_point": {"dead", "live"}, "cube_dead_for_taker",
/// "double_point", "gammon_value", "sum", "double_sum"}.
/// Precondition: the position has a match within the table.
std::string offer_text(const Position& position, const chance::MatchTable& table,
                       const chance::GammonRates& rates, Side side, const Io& io);
Json offer_object(const Position& position, const chance::MatchTable& table,
                  const chance::GammonRates& rates, Side side);

/// The sums of take point and doubling point of a double by the side to roll, at the score or for
/// points: text, or {"taker", "take_point": {"dead", "live"}, "double_point", "gammons_counted",
/// "sum", "double_sum", "known"}. Precondition: the position has a turn, the side may double, and
/// the standard match table reaches as far as the match needs.
std::string sums_text(const Position& position, const chance::GammonRates& rates, const Io& io);
Json sums_object(const Position& position, const chance::GammonRates& rates);

/// A game for points: what both sides' doubles mean, with the cube as `position` has it. In JSON
/// {"game": "money", "cube", "jacoby", "gammons_counted", "values", "offers", "known"}; an offer is
/// {"by", "taker", "take_point", "double_point", "redouble_point", "cash_point", "too_good_point",
/// "sum", "double_sum"}, where each point is {"dead", "usual", "live"}.
std::string money_text(const Position& position, const chance::GammonRates& rates, const Io& io);
Json money_object(const Position& position, const chance::GammonRates& rates);

}  // namespace pointwright::app

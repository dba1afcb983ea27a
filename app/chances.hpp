#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "app/json.hpp"
#include "chance/event.hpp"
#include "rules/position.hpp"
#include "rules/result.hpp"

namespace pointwright::app {

/// How the other side answers between two rolls.
enum class Reply : std::uint8_t {
  any,    ///< as it likes: from the best defence to the worst
  pips,   ///< with the play that leads most in the race
  table,  ///< with the play that wins most: by the exact tables where they reach, else by the nets
};

/// What is asked besides the count for the next roll.
struct ChancesAsked {
  bool next = false;  ///< also: now or on the turn after
  Reply reply = Reply::any;
};

/// {"position", "event", "ways", "fraction", "rolls", "grid", "sentence", "known": "exact"}: of the
/// 36 rolls, those that answer the query. `grid` is [first die - 1][second die - 1]. A roll that
/// the position gives is passed over and named in "roll_ignored"; with `asked.next` the chance of
/// doing it now or on the turn after stands in "now_or_next". Precondition: the position has a
/// turn; with `asked.next` the query is one of "can".
Json chance_object(const Position& position, const chance::Query& query, const ChancesAsked& asked);

/// {"position", "card": [{"event", "ways", "fraction", "rolls"}, …], "known": "exact"}: every event
/// that can be asked of the board. Precondition: the position has a turn.
Json card_object(const Position& position);

/// Answers one line of a batch: POSITION | EVENT, or POSITION alone for the card.
Result<Json, Failure> answer_chances(std::string_view line, const ChancesAsked& asked);

}  // namespace pointwright::app

#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "app/failure.hpp"
#include "app/json.hpp"
#include "judge/search.hpp"
#include "judge/tally.hpp"
#include "rules/position.hpp"
#include "rules/result.hpp"

namespace pointwright::app {

/// What a position is worth to the side on roll, and how that is known.
struct Worth {
  Position position;
  judge::Valuation valuation;  ///< of the side on roll
  judge::SearchedValue value;
  std::optional<judge::Tally> sampled{};  ///< of a rollout; `value` holds its means
};

/// {"position", "on_roll", "equity", "chances": {"win", "win_gammon", "win_backgammon",
/// "lose_gammon", "lose_backgammon"}, "known"} and, of a search, "depth"; of a rollout "trials",
/// "error", "win_error" and "seed". In a match also "match_chance".
Json worth_object(const Worth& worth);

/// Answers one line of a batch, looked at so many rolls ahead.
Result<Json, Failure> answer_worth(judge::Search& search, std::string_view line, int depth);

}  // namespace pointwright::app

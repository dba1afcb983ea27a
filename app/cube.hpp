#pragma once

#include <optional>

#include "app/cube_modelled.hpp"
#include "app/ending_tables.hpp"
#include "app/json.hpp"
#include "chance/gammon_shares.hpp"
#include "rules/position.hpp"

namespace pointwright::app {

/// What to do about the cube: {"position", "on_roll", "action", "answer", "hold", "double_take",
/// "double_drop", "win", "equities": {"no_cube", "centred", "mine", "theirs"}, "known", "how"}.
/// Equities are for money, in units of the cube as it stands, of the side on roll. `action` is
/// "double", "hold" or, where the side may not double, "none"; `answer` is what the other side
/// should do if it were offered the cube, "take" or "drop". Where there is no exact answer `action`
/// is null and "reason" says why, unless it may look `ahead`: then the model answers, see
/// app/cube_modelled.hpp. Where the side on roll may double and gain by it, "match"
/// has the take point, the doubling point and their sums at the score, or "points" those of a game
/// for points; they count the `given` gammons, or those that the model expects.
/// Precondition: the position has a turn.
Json cube_object(const Position& position, EndingTables& tables,
                 const std::optional<Lookahead>& ahead = {},
                 const std::optional<chance::GammonRates>& given = {});

}  // namespace pointwright::app

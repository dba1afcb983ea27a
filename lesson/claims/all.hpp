#pragma once

#include "lesson/claim.hpp"
#include "rules/obligation.hpp"
#include "rules/play.hpp"
#include "rules/ruling.hpp"

/// The kinds of claim, each defined in a file of this folder. all.cpp puts them in order.
namespace pointwright::lesson {

extern const ClaimKind legal_claim;
extern const ClaimKind illegal_claim;
extern const ClaimKind forced_claim;
extern const ClaimKind no_play_claim;
extern const ClaimKind plays_claim;
extern const ClaimKind must_use_both_claim;
extern const ClaimKind must_play_claim;
extern const ClaimKind must_play_of_four_claim;
extern const ClaimKind after_claim;
extern const ClaimKind hits_claim;
extern const ClaimKind pips_claim;
extern const ClaimKind contact_claim;
extern const ClaimKind chance_claim;
extern const ClaimKind now_or_next_claim;
extern const ClaimKind mean_rolls_claim;
extern const ClaimKind effective_pips_claim;
extern const ClaimKind race_chance_claim;
extern const ClaimKind equity_claim;
extern const ClaimKind cube_action_claim;
extern const ClaimKind best_play_claim;
extern const ClaimKind play_cost_claim;
extern const ClaimKind win_chance_claim;
extern const ClaimKind gammon_chance_claim;
extern const ClaimKind worth_claim;
extern const ClaimKind may_double_claim;
extern const ClaimKind may_not_double_claim;
extern const ClaimKind may_take_claim;
extern const ClaimKind drops_claim;
extern const ClaimKind wins_claim;
extern const ClaimKind score_claim;
extern const ClaimKind match_chance_claim;
extern const ClaimKind take_point_claim;
extern const ClaimKind double_point_claim;
extern const ClaimKind gammon_value_claim;

}  // namespace pointwright::lesson

#include "lesson/claims/all.hpp"

#include <array>

namespace pointwright::lesson {

std::span<const ClaimKind* const> claim_kinds() {
  static constexpr std::array kinds{
      // Plays
      &legal_claim, &illegal_claim, &forced_claim, &no_play_claim, &plays_claim,
      &must_use_both_claim, &must_play_claim, &must_play_of_four_claim, &after_claim, &hits_claim,
      // The board
      &pips_claim, &contact_claim,
      // The dice
      &chance_claim, &now_or_next_claim,
      // The race
      &mean_rolls_claim, &effective_pips_claim, &race_chance_claim, &equity_claim,
      &cube_action_claim,
      // Judgement
      &best_play_claim, &play_cost_claim, &win_chance_claim, &gammon_chance_claim, &worth_claim,
      // Cube and score
      &may_double_claim, &may_not_double_claim, &may_take_claim, &drops_claim, &wins_claim,
      &score_claim, &match_chance_claim, &take_point_claim, &double_point_claim,
      &gammon_value_claim};
  return kinds;
}

}  // namespace pointwright::lesson

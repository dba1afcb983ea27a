#include "rules/rulebook.hpp"

#include <algorithm>
#include <array>

#include "rules/book/bearing_off.hpp"
#include "rules/book/cube.hpp"
#include "rules/book/game.hpp"
#include "rules/book/match.hpp"
#include "rules/book/moving.hpp"
#include "rules/book/must_play.hpp"
#include "rules/book/turn.hpp"

namespace pointwright {
namespace {

// The one place where a rule is registered. To add one, write it in its chapter and name it here.
constexpr std::array everything{
    // The game
    &book::fifteen_each,
    &book::start_position,
    &book::one_side_per_point,
    &book::no_stack_limit,
    &book::win,
    &book::gammon,
    &book::backgammon,
    // The turn
    &book::opening_roll,
    &book::opening_tie,
    &book::turns_alternate,
    &book::valid_roll,
    &book::cocked_dice,
    &book::doubles_four,
    &book::hit,
    &book::dance,
    &book::dice_lifted,
    &book::premature_roll,
    // Moving
    &book::own_checker,
    &book::forward_only,
    &book::dice_numbers,
    &book::die_once,
    &book::bar_first,
    &book::blocked_point,
    &book::one_die_at_a_time,
    // Bearing off
    &book::all_home,
    &book::highest_first,
    // How much must be played
    &book::no_passing,
    &book::both_dice,
    &book::larger_die,
    &book::whole_double,
    &book::one_meaning,
    // The cube
    &book::cube_start,
    &book::cube_in_use,
    &book::cube_own_turn,
    &book::cube_before_roll,
    &book::cube_holder,
    &book::cube_take_or_drop,
    &book::cube_no_limit,
    &book::cube_multiplies,
    // The match
    &book::match_length,
    &book::crawford,
    &book::after_crawford,
};

}  // namespace

std::span<const Rule* const> rulebook() {
  return everything;
}

const Rule* find_rule(std::string_view id) {
  const auto found =
      std::ranges::find_if(everything, [&](const Rule* rule) { return rule->id == id; });
  return found == everything.end() ? nullptr : *found;
}

}  // namespace pointwright

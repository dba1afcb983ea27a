#pragma once

#include <cstdint>
#include <string>

#include "chance/match_cube.hpp"
#include "chance/money_cube.hpp"
#include "rules/ruling.hpp"

/// The sums behind cube decisions written out, as on a blackboard: risk, gain, fraction.
namespace pointwright::chance {

/// The sum of a take point at a score. `taker_side` names the side that is asked.
std::string take_point_sum(const ScoreDecision& decision, const Needs& taker,
                           const SideNames& names, Side taker_side);

/// The sum of the chance of winning from which the other side gains by a double that nobody will
/// turn again, at a score.
std::string double_point_sum(const ScoreDecision& decision, const SideNames& names,
                             Side taker_side);

/// What a gammon adds for `side` at this cube, as a part of the swing between a single win and a
/// single loss.
std::string gammon_value_sum(const GameEnds& ends, std::uint64_t cube, const SideNames& names,
                             Side side);

/// The same two in a game for points.
std::string take_point_sum(const MoneyDecision& decision, const SideNames& names, Side taker_side);
std::string double_point_sum(const MoneyDecision& decision, const SideNames& names,
                             Side taker_side);

}  // namespace pointwright::chance

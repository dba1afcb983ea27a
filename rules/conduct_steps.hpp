#pragma once

#include <optional>

#include "rules/conduct.hpp"

/// Steps that several events of the table share.
namespace pointwright {

/// Why an event of phase `wanted` is refused now: what the table waits for instead. Nothing when
/// the table is in that phase.
std::optional<Refusal> out_of_phase(const Table& table, Phase wanted, const SideNames& names);

/// The table when a side's turn begins, with its roll if that has been thrown already.
Table begin_turn(Table table, Side side, std::optional<Roll> roll);

/// The table when the game has ended.
Table end_game(Table table, const GameResult& result);

}  // namespace pointwright

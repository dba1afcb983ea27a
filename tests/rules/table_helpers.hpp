#pragma once

#include <gtest/gtest.h>

#include <string>

#include "rules/conduct.hpp"

namespace pointwright {

/// The table after an event that must be allowed.
inline Table must(const TableEvent& event) {
  EXPECT_TRUE(event.ok()) << (event.ok() ? "" : event.error().proof);
  return event.ok() ? *event : Table{};
}

/// The rule that refuses an event, which must be refused with a proof.
inline std::string refused_by(const TableEvent& event) {
  if (event.ok()) return "allowed";
  EXPECT_FALSE(event.error().proof.empty());
  return event.error().rule == nullptr ? "" : std::string(event.error().rule->id);
}

/// Makes the moves of a play, one checker at a time.
inline Table make_play(Table table, const Play& play) {
  for (const Move& move : play) table = must(move_checker(table, move.from, move.to));
  return table;
}

/// A table at which the turn of the position has come to this point.
inline Table table_at(std::string_view line) {
  const auto position = read_position(line);
  EXPECT_TRUE(position.ok()) << line << ": " << (position.ok() ? "" : position.error()[0].reason);
  Table table;
  if (!position.ok()) return table;
  table.position = *position;
  table.board = position->board;
  table.phase = position->roll ? Phase::to_play : Phase::to_roll;
  return table;
}

}  // namespace pointwright

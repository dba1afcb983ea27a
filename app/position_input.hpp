#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "app/failure.hpp"
#include "app/io.hpp"
#include "rules/position.hpp"
#include "rules/result.hpp"

namespace pointwright::app {

/// A line of text and where it came from.
struct GivenLine {
  std::string text{};
  std::string origin{};  ///< "argument", "standard input", or a file's name
  std::size_t line = 1;
};

/// The position line that an argument names: the argument itself; with "-" the first line of
/// standard input that is not blank; or, where the argument is a file's name, that file's.
/// A position line always holds a semicolon or begins with "start", so the two cannot be confused
/// unless a file is named like that (then write ./NAME).
Result<GivenLine, Failure> fetch_line(const std::string& argument, Io& io);

/// The position on a line. Besides a position line, `start` is read as the position of a new game;
/// more parts may follow it: "start; light to play 3-1".
Result<Position, Faults> read_position_or_start(std::string_view text);

/// The same, with what is needed to report a failure.
Result<Position, Failure> read_position_of(const GivenLine& given);

/// The same for a verb that asks about a side's next roll: the position must have a turn.
Result<Position, Failure> read_position_with_turn(const GivenLine& given);

/// The same for a verb that plays a roll: the position must have a turn and dice.
Result<Position, Failure> read_position_with_roll(const GivenLine& given);

}  // namespace pointwright::app

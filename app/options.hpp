#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "app/failure.hpp"
#include "app/io.hpp"
#include "app/option_list.hpp"
#include "app/position_input.hpp"
#include "rules/position.hpp"
#include "rules/result.hpp"

/// Options that several verbs share, so that they are written and described once.
namespace pointwright::app {

/// Where a verb's question comes from, and in which form the answer is wanted.
struct PositionOptions {
  std::optional<std::string> position;
  bool json = false;
  bool batch = false;
};

/// Adds POSITION, --json and --batch. `batch_line` says what a line of a batch holds.
void add_position_options(OptionList& list, PositionOptions& options,
                          const std::string& batch_line);

/// What is wrong with the combination: neither a position nor --batch, or both.
std::optional<Failure> misuse(const PositionOptions& options);

/// A position and the line that it was read from.
struct Question {
  GivenLine given;
  Position position;
};

/// The position that the argument names, which must have a roll to play.
Result<Question, Failure> ask_with_roll(const PositionOptions& options, Io& io);

/// The position that the argument names, which must say who is to roll.
Result<Question, Failure> ask_with_turn(const PositionOptions& options, Io& io);

/// The whole number given to an option, or `usual` if none is.
Result<std::uint64_t, Failure> number_of(const std::optional<std::string>& word,
                                         std::string_view option, std::uint64_t usual,
                                         std::uint64_t least, std::uint64_t most);

/// Reports a failure in the form that was asked for: an object on `io.out`, or words on `io.err`.
/// Returns `exit_bad_input`.
int complain(const Failure& failure, bool json, Io& io);

}  // namespace pointwright::app

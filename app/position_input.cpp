#include "app/position_input.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>

#include "app/batch.hpp"
#include "rules/score.hpp"

namespace pointwright::app {
namespace {

constexpr std::string_view start_word = "start";

bool is_separator(char c) {
  return c == ' ' || c == '_' || c == ';' || c == '\t';
}

/// Whether a text begins with the word `start`.
bool begins_with_start(std::string_view text) {
  return text.starts_with(start_word) &&
         (text.size() == start_word.size() || is_separator(text[start_word.size()]));
}

bool names_a_file(const std::string& argument) {
  if (argument.find(';') != std::string::npos || begins_with_start(argument)) return false;
  std::error_code ignored;
  return std::filesystem::exists(argument, ignored);
}

Result<GivenLine, Failure> first_line(std::istream& in, const std::string& origin) {
  LineReader reader{in};
  while (const auto line = reader.next()) {
    if (line->too_long) {
      return failure(
          "line-too-long",
          fmt::format("line {} of {} is longer than {} bytes", line->number, origin, longest_line),
          "give a text whose first line is a position line");
    }
    if (line->text.find_first_not_of(" \t") == std::string_view::npos) continue;
    return GivenLine{.text = std::string{line->text}, .origin = origin, .line = line->number};
  }
  return failure("no-position", fmt::format("there is no position line in {}", origin),
                 "write one, such as `light 6x2; dark 6x2; light to play 6-5`");
}

/// What is missing from a position that is to be played: a turn, or dice. Empty if nothing is.
Faults faults_without_roll(const Position& position, std::string_view text) {
  const TextSpan end{.begin = text.size(), .end = text.size()};
  if (!position.turn) {
    return {{.id = "no-roll",
             .where = end,
             .reason = "the position does not say who is to play, and with which roll",
             .fix = "add `; light to play 3-1`, with the side and the roll"}};
  }
  if (!position.roll) {
    return {
        {.id = "no-roll",
         .where = end,
         .reason = fmt::format("the position does not say what {} rolled", name(*position.turn)),
         .fix = fmt::format("write `{} to play 3-1`, with the roll, in place of `{} to roll`",
                            name(*position.turn), name(*position.turn))}};
  }
  return {};
}

}  // namespace

Result<GivenLine, Failure> fetch_line(const std::string& argument, Io& io) {
  if (argument == "-") return first_line(io.in, "standard input");
  if (!names_a_file(argument)) return GivenLine{.text = argument, .origin = "argument"};
  std::ifstream file(argument, std::ios::binary);
  if (!file || std::filesystem::is_directory(argument)) {
    return failure("cannot-read", fmt::format("`{}` cannot be read as a file", argument),
                   "name a file whose first line is a position line, or write the line itself");
  }
  return first_line(file, argument);
}

Result<Position, Faults> read_position_or_start(std::string_view text) {
  const std::size_t skipped = std::min(text.find_first_not_of(" \t_"), text.size());
  if (!begins_with_start(text.substr(skipped))) return read_position(text);
  const std::string board = to_text(starting_board());
  const std::string_view rest = text.substr(skipped + start_word.size());
  const std::string whole = board + std::string{rest};
  Result<Position, Faults> position = read_position(whole);
  if (position.ok()) return position;
  // Spans are wanted in the text as it was typed.
  Faults faults = position.error();
  const auto typed = [&](std::size_t at) {
    return at <= board.size() ? skipped : at - board.size() + start_word.size() + skipped;
  };
  for (Fault& fault : faults) {
    fault.where = {.begin = typed(fault.where.begin), .end = typed(fault.where.end)};
    if (fault.where.begin == skipped) {
      fault.where.end = std::max(fault.where.end, skipped + start_word.size());
    }
  }
  return faults;
}

Result<Position, Failure> read_position_of(const GivenLine& given) {
  Result<Position, Faults> position = read_position_or_start(given.text);
  if (position.ok()) return *position;
  return Failure{
      .text = given.text, .origin = given.origin, .line = given.line, .faults = position.error()};
}

Result<Position, Failure> read_position_with_turn(const GivenLine& given) {
  Result<Position, Failure> position = read_position_of(given);
  if (!position.ok() || position->turn) return position;
  const std::size_t end = given.text.size();
  Failure missing{.text = given.text, .origin = given.origin, .line = given.line};
  if (winner_of(position->board)) {
    missing.faults = {{.id = "game-over",
                       .where = {.begin = 0, .end = end},
                       .reason = fmt::format("{} has borne off all its checkers: the game is over",
                                             name(*winner_of(position->board))),
                       .fix = "give a position in which both sides have checkers left"}};
  } else {
    missing.faults = {{.id = "no-turn",
                       .where = {.begin = end, .end = end},
                       .reason = "the position does not say which side is to roll",
                       .fix = "add `; light to roll` or `; dark to roll`"}};
  }
  return missing;
}

Result<Position, Failure> read_position_with_roll(const GivenLine& given) {
  Result<Position, Failure> position = read_position_of(given);
  if (!position.ok()) return position;
  Faults missing = faults_without_roll(*position, given.text);
  if (missing.empty()) return position;
  return Failure{
      .text = given.text, .origin = given.origin, .line = given.line, .faults = std::move(missing)};
}

}  // namespace pointwright::app

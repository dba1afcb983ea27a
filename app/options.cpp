#include "app/options.hpp"

#include <fmt/format.h>

#include "app/json.hpp"
#include "rules/text.hpp"

namespace pointwright::app {

void add_position_options(OptionList& list, PositionOptions& options,
                          const std::string& batch_line) {
  list.argument("POSITION", options.position,
                "A position line between quotes; `start` for the position of a new game; a file "
                "whose first line is a position line; or - for standard input. Underscores may "
                "stand for the spaces.");
  list.flag("--json", options.json, "Answer with one JSON object.");
  list.flag("--batch", options.batch,
            fmt::format("Read {} from each line of standard input and answer each with one JSON "
                        "object on a line, in order.",
                        batch_line));
}

std::optional<Failure> misuse(const PositionOptions& options) {
  if (options.batch && options.position) {
    return failure("too-many-arguments", "with --batch the positions come from standard input",
                   "leave out the position, or leave out --batch");
  }
  if (!options.batch && !options.position) {
    return failure("missing-position", "there is no position to answer about",
                   "write one between quotes, such as \"start; light to play 3-1\", or - to read "
                   "it from standard input");
  }
  return std::nullopt;
}

Result<Question, Failure> ask_with_roll(const PositionOptions& options, Io& io) {
  const auto given = fetch_line(*options.position, io);
  if (!given.ok()) return given.error();
  const auto position = read_position_with_roll(*given);
  if (!position.ok()) return position.error();
  return Question{.given = *given, .position = *position};
}

Result<Question, Failure> ask_with_turn(const PositionOptions& options, Io& io) {
  const auto given = fetch_line(*options.position, io);
  if (!given.ok()) return given.error();
  const auto position = read_position_with_turn(*given);
  if (!position.ok()) return position.error();
  return Question{.given = *given, .position = *position};
}

int complain(const Failure& failure, bool json, Io& io) {
  if (!json) return complain(failure, io);
  io.out << to_line(to_json(failure)) << '\n';
  return exit_bad_input;
}

Result<std::uint64_t, Failure> number_of(const std::optional<std::string>& word,
                                         std::string_view option, std::uint64_t usual,
                                         std::uint64_t least, std::uint64_t most) {
  if (!word) return usual;
  const auto number = text::number(*word, most);
  if (number && *number >= least) return *number;
  return failure("bad-number", fmt::format("{} cannot be `{}`", option, harmless(*word)),
                 fmt::format("write a whole number from {} to {}", least, most));
}

}  // namespace pointwright::app

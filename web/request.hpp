#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "rules/position.hpp"
#include "rules/result.hpp"
#include "rules/ruling.hpp"
#include "storyboard/storyboard.hpp"

/// What a page asks the engine: lines of text, the first the name of the question, the others
/// "KEY VALUE".
namespace pointwright::web {

struct Request {
  std::string_view verb;
  struct Field {
    std::string_view key;
    std::string_view value;
  };
  std::vector<Field> fields;

  /// The value of the first field of that name, or nothing written.
  [[nodiscard]] std::string_view value(std::string_view key) const;
  [[nodiscard]] bool has(std::string_view key) const;
};

/// Cuts a request into its lines. Views point into `text`.
Request read_request(std::string_view text);

/// The lines of a record, which stand in a request as its fields.
std::string record_of(const Request& request);

/// What the sides are called: fields `light` and `dark`, where they are given.
SideNames names_of(const Request& request);

/// How the board is seen: `bottom` and `numbering` name a side, `home left` turns it round.
View view_of(const Request& request);

/// "light" or "dark"; light where nothing or something else is written.
Side side_of(std::string_view word);

/// The position of field `position`. Fields `turn` (a side) and `roll` (two dice, "6 4") say
/// otherwise than it whose turn it is and what was rolled.
Result<Position, Faults> position_of(const Request& request);

}  // namespace pointwright::web

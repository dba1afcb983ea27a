#pragma once

#include <string>
#include <string_view>

#include "rules/result.hpp"
#include "storyboard/storyboard.hpp"

namespace pointwright {

/// Writes a storyboard as JSON (docs/storyboard.schema.json), one object with the member
/// `version` first. The same storyboard gives the same bytes. `indent` below 0 means one line.
/// Bytes that are not UTF-8 come out as U+FFFD.
std::string to_json(const Storyboard& storyboard, int indent = -1);

/// Why a text is no storyboard.
struct StoryboardFault {
  std::string where;   ///< a JSON pointer (RFC 6901): "/chapters/0/title"
  std::string reason;  ///< what was seen and what is needed
};

/// Reads a storyboard from JSON, checking every member; members that it does not know are passed
/// over. The first fault found is returned.
Result<Storyboard, StoryboardFault> storyboard_from_json(std::string_view json);

/// The JSON Schema (draft 2020-12) of what `to_json` writes; docs/storyboard.schema.json holds it.
std::string storyboard_schema();

}  // namespace pointwright

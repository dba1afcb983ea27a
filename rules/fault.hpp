#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace pointwright {

/// A stretch of text in bytes: [begin, end).
struct TextSpan {
  std::size_t begin = 0;
  std::size_t end = 0;
  friend bool operator==(const TextSpan&, const TextSpan&) = default;
};

/// What is wrong with a piece of text that a person typed: where, why, and what to write instead.
struct Fault {
  std::string_view id;  ///< stable name of this kind of fault, e.g. "point-out-of-range"
  TextSpan where;       ///< in the text that was read
  std::string reason;   ///< what was seen and why it cannot be, in the author's own notation
  std::string fix;      ///< what to write instead
};

using Faults = std::vector<Fault>;

}  // namespace pointwright

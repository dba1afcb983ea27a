#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "app/failure.hpp"

namespace pointwright::app {

/// JSON whose keys keep the order in which they were written, so that output is reproducible.
using Json = nlohmann::ordered_json;

/// One line of JSON without its newline. Bytes that are not UTF-8 become U+FFFD.
std::string to_line(const Json& json);

/// {"error": {"id", "reason", "fix", "at": {"line", "begin", "end"}}, "input": …}. `at` is the byte
/// range of the fault in the line; it is null when the failure is not about a text. Further faults
/// of the same input follow in "also".
Json to_json(const Failure& failure);

}  // namespace pointwright::app

#pragma once

#include <string>
#include <string_view>

namespace pointwright::web {

/// Answers one question of a page with one JSON object. A question is lines of text (see
/// web/request.hpp); `questions` in web/engine.cpp lists them all. A question that cannot be
/// answered gives {"error": {"id", "reason"}}; nothing is ever thrown.
///
/// The same question gives the same bytes in every build, native or WebAssembly.
std::string answer(std::string_view question);

}  // namespace pointwright::web

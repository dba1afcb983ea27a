#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace pointwright::app {

/// "did you mean `word`?" where a known word is near to what was typed, as lesson/suggest.hpp
/// judges, or the fallback when nothing is near.
std::string did_you_mean(std::string_view typed, const std::vector<std::string>& known,
                         std::string fallback);

}  // namespace pointwright::app

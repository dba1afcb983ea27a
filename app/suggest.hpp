#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pointwright::app {

/// Edits (a letter added, dropped, changed, or two neighbours exchanged) between two words.
int edit_distance(std::string_view a, std::string_view b);

/// The known word nearest to what was typed, if it is near enough to be what was meant.
std::optional<std::string> suggestion(std::string_view typed,
                                      const std::vector<std::string>& known);

/// "did you mean `word`?", or the fallback when nothing is near.
std::string did_you_mean(std::string_view typed, const std::vector<std::string>& known,
                         std::string fallback);

}  // namespace pointwright::app

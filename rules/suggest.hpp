#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// Did you mean.
namespace pointwright::text {

/// Letters to insert, remove, change, or exchange with their neighbour to turn one word into the
/// other (Damerau's distance, each letter touched once). ASCII case does not count. Returns `limit`
/// + 1 when it is more than `limit`.
int edit_distance(std::string_view a, std::string_view b, int limit);

/// The known word that was most likely meant: the nearest, if it is near for its length.
std::optional<std::string> did_you_mean(std::string_view word,
                                        const std::vector<std::string>& known);

/// "a, b or c", at most `most` of them.
std::string one_of(const std::vector<std::string>& words, std::size_t most = 12);

}  // namespace pointwright::text

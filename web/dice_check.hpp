#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

/// Checking throws that somebody noted against the seed that they should follow from (see
/// web/sealed_dice.hpp), without the game in which they were made.
namespace pointwright::web {

/// A throw as somebody noted it.
struct NotedThrow {
  std::optional<std::array<int, 2>> dice;  ///< nothing if it is not known
  /// Whether it is known which die is whose, as in the opening: light's, then dark's. Otherwise the
  /// dice may be noted in either order.
  bool in_order = false;
};

/// "3-1", or "?" for a throw that is not known. Nothing if it is neither.
std::optional<NotedThrow> read_noted_throw(std::string_view text);

/// What was found out about one throw.
struct CheckedThrow {
  int number = 0;
  std::array<int, 2> made{};  ///< as it follows from the seed
  NotedThrow noted;
  [[nodiscard]] bool holds() const;
};

/// Makes the throws from number `first` on again and puts each beside what was noted; `count` of
/// them, or as many as were noted if that is more.
std::vector<CheckedThrow> check_throws(std::string_view seed, std::string_view words, int first,
                                       std::vector<NotedThrow> noted, std::size_t count = 0);

/// Whether a text is a SHA-256 digest: 64 hexadecimal digits, small letters.
bool is_digest(std::string_view text);

}  // namespace pointwright::web

#pragma once

#include <string>
#include <string_view>

/// Numbers as the verbs that answer with numbers print them, so that all of them look alike.
namespace pointwright::app {

/// How a number is known. Every answer names one of these.
inline constexpr std::string_view known_exact = "exact";  ///< counted, or from a solved table
inline constexpr std::string_view known_modelled =
    "modelled";  ///< computed from stated assumptions
/// Put together from exact parts, with a stated error.
inline constexpr std::string_view known_combined = "combined";
/// Estimated by the nets, with a stated number of rolls looked ahead.
inline constexpr std::string_view known_searched = "searched";
inline constexpr std::string_view known_sampled = "sampled";  ///< with a stated standard error
inline constexpr std::string_view known_given = "given";  ///< read from a table that somebody gave

/// A chance of 0 to 1 in per cent: "30.56%".
std::string percent(double chance, int decimals = 2);

/// An equity with its sign: "+0.485".
std::string equity(double value);

/// A whole number with commas: "46,656".
std::string with_commas(long long value);

/// The number rounded to that many decimals, for JSON: longer tails would claim more than is known.
double rounded(double value, int decimals);

/// The text before and after the first `|` of a line of a batch, and where the second begins. A
/// line without one has no second part.
struct Halves {
  std::string_view first;
  std::string_view second;
  std::size_t second_at = 0;
  bool has_second = false;
};
Halves halves(std::string_view line);

/// The text without spaces and tabs at its ends.
std::string_view without_ends(std::string_view text);

}  // namespace pointwright::app

#include "app/numbers.hpp"

#include <fmt/format.h>

#include <cmath>

namespace pointwright::app {

std::string percent(double chance, int decimals) {
  return fmt::format("{:.{}f}%", rounded(100 * chance, decimals), decimals);
}

std::string equity(double value) {
  return fmt::format("{:+.3f}", value);
}

std::string with_commas(long long value) {
  std::string digits = fmt::format("{}", value);
  const std::size_t first = digits.starts_with('-') ? 1 : 0;
  for (std::size_t at = digits.size(); at > first + 3;) {
    at -= 3;
    digits.insert(at, ",");
  }
  return digits;
}

double rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return std::round(value * scale) / scale + 0.0;  // the sum has no negative zero
}

Halves halves(std::string_view line) {
  const std::size_t cut = line.find('|');
  if (cut == std::string_view::npos) return {.first = line, .second = {}};
  return {.first = line.substr(0, cut),
          .second = line.substr(cut + 1),
          .second_at = cut + 1,
          .has_second = true};
}

std::string_view without_ends(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

}  // namespace pointwright::app

#include "chance/gammon_shares.hpp"

#include "chance/blackboard.hpp"
#include "rules/text.hpp"

namespace pointwright::chance {
namespace {

/// "25", "25%", "12.5": per cent as a share.
std::optional<double> read_share(std::string_view word) {
  if (word.ends_with('%')) word.remove_suffix(1);
  const std::size_t point = word.find('.');
  const auto whole = text::number(word.substr(0, point), 100);
  if (!whole) return std::nullopt;
  std::uint64_t thousandths = *whole * 10;
  if (point != std::string_view::npos) {
    const auto tenth = text::number(word.substr(point + 1), 9);
    if (!tenth || word.size() != point + 2) return std::nullopt;
    thousandths += *tenth;
  }
  if (thousandths > 1000) return std::nullopt;
  return static_cast<double>(thousandths) / 1000;
}

std::string share_text(double share) {
  const long thousandths = tenths(share);
  std::string text = std::to_string(thousandths / 10);
  if (thousandths % 10 != 0) text += "." + std::to_string(thousandths % 10);
  return text;
}

}  // namespace

std::optional<GammonRates> read_gammon_rates(std::string_view text) {
  const std::size_t dash = text.find('-');
  if (dash == std::string_view::npos) return std::nullopt;
  const auto light = read_share(text.substr(0, dash));
  const auto dark = read_share(text.substr(dash + 1));
  if (!light || !dark) return std::nullopt;
  return GammonRates{{*light, *dark}};
}

std::string to_text(const GammonRates& rates) {
  return share_text(rates.share[0]) + "-" + share_text(rates.share[1]);
}

}  // namespace pointwright::chance

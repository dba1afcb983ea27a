#include "lesson/claims/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace pointwright::lesson {

std::string capitalised(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string Name(const Ask& ask, Side side) {
  return capitalised(ask.names()[side]);
}

std::string counted(std::int64_t n, std::string_view singular) {
  return fmt::format("{} {}{}", n, singular, n == 1 ? "" : "s");
}

std::string listed(const std::vector<std::string>& items, std::size_t most) {
  std::string list;
  const std::size_t shown = std::min(items.size(), most);
  for (std::size_t i = 0; i < shown; ++i) {
    if (i > 0) list += i + 1 == items.size() ? " and " : ", ";
    list += items[i];
  }
  if (shown < items.size()) list += fmt::format(" and {} more", items.size() - shown);
  return list;
}

std::vector<LegalPlay> plays_of(const Ask& ask) {
  return legal_plays(ask.position().board, ask.side(), ask.roll());
}

std::string list_of(const std::vector<LegalPlay>& plays, std::size_t most) {
  std::vector<std::string> texts;
  for (const LegalPlay& play : plays) texts.push_back(to_text(play.play));
  return listed(texts, most);
}

bool covered_by_table(const chance::Needs& needs) {
  return std::max(needs.mine, needs.theirs) <= chance::standard_match_table().size();
}

Answer judged(const Ask& ask, std::string_view blank, double truth, std::string sentence,
              std::string proof, std::string correction) {
  constexpr double rounding = 1e-12;
  const Stated& stated = ask.stated(blank);
  if (std::abs(truth - stated.value) <= stated.tolerance + rounding)
    return Proved{std::move(sentence), std::move(proof)};
  return Refuted{std::move(sentence), std::move(proof), blank, std::move(correction)};
}

}  // namespace pointwright::lesson

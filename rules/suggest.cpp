#include "rules/suggest.hpp"

#include <algorithm>
#include <cstdlib>

#include "rules/text.hpp"

namespace pointwright::text {

int edit_distance(std::string_view a, std::string_view b, int limit) {
  const auto long_a = static_cast<int>(a.size());
  const auto long_b = static_cast<int>(b.size());
  if (std::abs(long_a - long_b) > limit) return limit + 1;
  const auto letter = [](std::string_view word, std::size_t i) { return lower(word[i]); };
  std::vector<int> two_ago(b.size() + 1);
  std::vector<int> last(b.size() + 1);
  std::vector<int> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = static_cast<int>(j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = static_cast<int>(i);
    int best = row[0];
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const bool same = letter(a, i - 1) == letter(b, j - 1);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (same ? 0 : 1)});
      if (i > 1 && j > 1 && letter(a, i - 1) == letter(b, j - 2) &&
          letter(a, i - 2) == letter(b, j - 1))
        row[j] = std::min(row[j], two_ago[j - 2] + 1);
      best = std::min(best, row[j]);
    }
    if (best > limit) return limit + 1;
    two_ago.swap(last);
    last.swap(row);
  }
  return std::min(last[b.size()], limit + 1);
}

std::optional<std::string> did_you_mean(std::string_view word,
                                        const std::vector<std::string>& known) {
  constexpr std::size_t longest = 60;
  if (word.empty() || word.size() > longest) return std::nullopt;
  std::optional<std::string> best;
  int nearest = static_cast<int>(word.size()) / 3 + 1;
  for (const std::string& candidate : known) {
    const int distance = edit_distance(word, candidate, nearest);
    if (distance >= nearest || distance >= static_cast<int>(candidate.size())) continue;
    nearest = distance;
    best = candidate;
  }
  if (best) return best;
  // A word cut short, or the first of several: "bar" for "bar-first".
  for (const std::string& candidate : known) {
    if (word.size() >= 3 && candidate.size() > word.size() &&
        same_word(candidate.substr(0, word.size()), word))
      return candidate;
  }
  return std::nullopt;
}

std::string one_of(const std::vector<std::string>& words, std::size_t most) {
  std::string list;
  const std::size_t shown = std::min(words.size(), most);
  for (std::size_t i = 0; i < shown; ++i) {
    if (i > 0) list += i + 1 == words.size() ? " or " : ", ";
    list += words[i];
  }
  return shown < words.size() ? list + ", ..." : list;
}

}  // namespace pointwright::text

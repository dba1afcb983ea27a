#include "app/suggest.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace pointwright::app {
namespace {

/// Longer words are nobody's misspelling of ours, and comparing them would cost their square.
constexpr std::size_t longest_word = 64;

}  // namespace

int edit_distance(std::string_view a, std::string_view b) {
  // The restricted Damerau-Levenshtein distance, three rows at a time.
  std::vector<int> before_last;
  std::vector<int> last(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = static_cast<int>(j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::vector<int> row(b.size() + 1);
    row[0] = static_cast<int>(i);
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const int change = a[i - 1] == b[j - 1] ? 0 : 1;
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + change});
      const bool exchanged = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (exchanged) row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
    before_last = std::move(last);
    last = std::move(row);
  }
  return last.back();
}

std::optional<std::string> suggestion(std::string_view typed,
                                      const std::vector<std::string>& known) {
  if (typed.empty() || typed.size() > longest_word) return std::nullopt;
  // One edit for a short word, a third of its letters for a longer one.
  const int allowed = std::max(1, static_cast<int>(typed.size()) / 3);
  const std::string* nearest = nullptr;
  int best = allowed + 1;
  for (const std::string& word : known) {
    const int distance = edit_distance(typed, word);
    if (distance < best) {
      best = distance;
      nearest = &word;
    }
  }
  if (nearest != nullptr) return *nearest;
  // Or the beginning of one word only.
  const std::string* begun = nullptr;
  for (const std::string& word : known) {
    if (!word.starts_with(typed)) continue;
    if (begun != nullptr) return std::nullopt;
    begun = &word;
  }
  return begun == nullptr ? std::nullopt : std::optional{*begun};
}

std::string did_you_mean(std::string_view typed, const std::vector<std::string>& known,
                         std::string fallback) {
  const auto word = suggestion(typed, known);
  return word ? fmt::format("did you mean `{}`?", *word) : std::move(fallback);
}

}  // namespace pointwright::app

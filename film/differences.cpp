#include "film/differences.hpp"

#include <algorithm>
#include <sstream>

namespace pointwright::film {

namespace {

// What it costs to turn one list into the other. Putting a text in the place of one that is unlike
// it is a little cheaper than taking one out and putting one in, so that what stands in the same
// place is shown together; but never at the price of tearing two versions of one text apart.
constexpr int add_or_drop = 4;
constexpr int reword = 4;
constexpr int replace = 7;

using Words = std::vector<std::string>;

Words sorted_words(const std::string& text) {
  std::istringstream stream(text);
  Words words;
  for (std::string word; stream >> word;) {
    words.push_back(word);
  }
  std::ranges::sort(words);
  return words;
}

bool alike(const Words& a, const Words& b) {
  Words shared;
  std::ranges::set_intersection(a, b, std::back_inserter(shared));
  return 2 * shared.size() > std::max(a.size(), b.size());
}

std::vector<Words> words_of(const std::vector<std::string>& texts) {
  std::vector<Words> words;
  words.reserve(texts.size());
  for (const std::string& text : texts) {
    words.push_back(sorted_words(text));
  }
  return words;
}

// Takes away what both lists begin and end with.
void trim(std::vector<std::string>& a, std::vector<std::string>& b) {
  const auto [in_a, in_b] = std::ranges::mismatch(a, b);
  a.erase(a.begin(), in_a);
  b.erase(b.begin(), in_b);
  while (!a.empty() && !b.empty() && a.back() == b.back()) {
    a.pop_back();
    b.pop_back();
  }
}

class Alignment {
 public:
  Alignment(const std::vector<std::string>& a, const std::vector<std::string>& b)
      : a_(a),
        b_(b),
        words_a_(words_of(a)),
        words_b_(words_of(b)),
        cost_((a.size() + 1) * (b.size() + 1)) {
    // cost(i, j) turns the rest of a from i into the rest of b from j.
    for (std::size_t i = a.size() + 1; i-- > 0;) {
      for (std::size_t j = b.size() + 1; j-- > 0;) {
        cost(i, j) = cheapest(i, j);
      }
    }
  }

  std::vector<Difference> walk() {
    std::vector<Difference> result;
    std::size_t i = 0;
    std::size_t j = 0;
    while (i < a_.size() || j < b_.size()) {
      const bool both = i < a_.size() && j < b_.size();
      if (both && cost(i, j) == change(i, j) + cost(i + 1, j + 1)) {
        if (a_[i] != b_[j]) {
          result.push_back({a_[i], b_[j]});
        }
        ++i;
        ++j;
      } else if (i < a_.size() && cost(i, j) == add_or_drop + cost(i + 1, j)) {
        result.push_back({a_[i++], {}});
      } else {
        result.push_back({{}, b_[j++]});
      }
    }
    return result;
  }

 private:
  int& cost(std::size_t i, std::size_t j) { return cost_[i * (b_.size() + 1) + j]; }

  [[nodiscard]] int change(std::size_t i, std::size_t j) const {
    if (a_[i] == b_[j]) {
      return 0;
    }
    return alike(words_a_[i], words_b_[j]) ? reword : replace;
  }

  int cheapest(std::size_t i, std::size_t j) {
    if (i == a_.size()) {
      return add_or_drop * static_cast<int>(b_.size() - j);
    }
    if (j == b_.size()) {
      return add_or_drop * static_cast<int>(a_.size() - i);
    }
    return std::min({change(i, j) + cost(i + 1, j + 1), add_or_drop + cost(i + 1, j),
                     add_or_drop + cost(i, j + 1)});
  }

  const std::vector<std::string>& a_;
  const std::vector<std::string>& b_;
  std::vector<Words> words_a_;
  std::vector<Words> words_b_;
  std::vector<int> cost_;
};

std::vector<Difference> paired(const std::vector<std::string>& a,
                               const std::vector<std::string>& b) {
  std::vector<Difference> result;
  for (std::size_t i = 0; i < std::max(a.size(), b.size()); ++i) {
    Difference pair{i < a.size() ? a[i] : std::string{}, i < b.size() ? b[i] : std::string{}};
    if (pair.before != pair.after) {
      result.push_back(std::move(pair));
    }
  }
  return result;
}

}  // namespace

std::vector<Difference> differences(std::vector<std::string> before,
                                    std::vector<std::string> after) {
  std::erase(before, std::string{});
  std::erase(after, std::string{});
  trim(before, after);
  if (before.size() > longest_compared && after.size() > longest_compared) {
    return paired(before, after);
  }
  return Alignment(before, after).walk();
}

}  // namespace pointwright::film

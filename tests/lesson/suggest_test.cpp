#include "lesson/suggest.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

namespace pointwright::lesson {
namespace {

/// Damerau's distance with each letter touched once, by its definition: slow and plain.
int plain_distance(std::string_view a, std::string_view b) {
  if (a.empty() || b.empty()) return static_cast<int>(a.size() + b.size());
  const auto tail = [](std::string_view word, std::size_t n) { return word.substr(n); };
  int best = std::min(plain_distance(tail(a, 1), b), plain_distance(a, tail(b, 1))) + 1;
  best = std::min(best, plain_distance(tail(a, 1), tail(b, 1)) + (a[0] == b[0] ? 0 : 1));
  if (a.size() > 1 && b.size() > 1 && a[0] == b[1] && a[1] == b[0])
    best = std::min(best, plain_distance(tail(a, 2), tail(b, 2)) + 1);
  return best;
}

TEST(EditDistance, AgreesWithItsDefinition) {
  std::mt19937 random(20240607);
  const auto word = [&] {
    std::string letters;
    for (auto n = random() % 6; n > 0; --n) letters += static_cast<char>('a' + random() % 3);
    return letters;
  };
  for (int i = 0; i < 2000; ++i) {
    const std::string a = word();
    const std::string b = word();
    for (const int limit : {0, 1, 2, 10})
      ASSERT_EQ(edit_distance(a, b, limit), std::min(plain_distance(a, b), limit + 1))
          << a << " " << b;
  }
}

TEST(DidYouMean, FindsTheNearWordOnly) {
  const std::vector<std::string> known{"bar-first", "blocked-point", "both-dice"};
  EXPECT_EQ(did_you_mean("bar-frist", known), "bar-first");
  EXPECT_EQ(did_you_mean("bar", known), "bar-first");
  EXPECT_EQ(did_you_mean("blocked", known), "blocked-point");
  EXPECT_EQ(did_you_mean("gammon", known), std::nullopt);
  EXPECT_EQ(did_you_mean("", known), std::nullopt);
  EXPECT_EQ(did_you_mean(std::string(100'000, 'x'), known), std::nullopt);
}

TEST(OneOf, ReadsAsAList) {
  EXPECT_EQ(one_of({"a"}), "a");
  EXPECT_EQ(one_of({"a", "b"}), "a or b");
  EXPECT_EQ(one_of({"a", "b", "c"}), "a, b or c");
  EXPECT_EQ(one_of({"a", "b", "c"}, 2), "a, b, ...");
}

}  // namespace
}  // namespace pointwright::lesson

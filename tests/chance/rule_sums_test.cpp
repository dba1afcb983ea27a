#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <random>
#include <string>

#include "chance/rules_of_thumb.hpp"
#include "rules/position.hpp"

namespace pointwright {
namespace {

std::string sum_of(std::string_view id, std::string_view line, bool owned = false) {
  const Board board = read_position(line).value().board;
  for (const RuleOfThumb& rule : rules_of_thumb()) {
    if (rule.id != id) continue;
    return rule.sum({{board.of(Side::light), board.of(Side::dark)}, "light", "dark", owned});
  }
  return "no such rule";
}

// By hand: light has 42 pips on 6, 5 and 4, dark 45.
constexpr const char* race = "light 6x3 5x4 4x1; dark 6x3 5x4 4x1 3x1; light to roll";
// Light has 20 pips, 4 checkers and three points; dark 10 pips with 4 on the 1-point, two gaps.
constexpr const char* stacked = "light 6x1 5x2 4x1; dark 6x1 1x4; light to roll";

TEST(RuleSums, AreWrittenAsATeacherWould) {
  EXPECT_EQ(sum_of("8-9-12", race),
            "45 - 42 = 3, and 3 / 42 = 7.1%; double from 8%, take up to 12%");
  EXPECT_EQ(sum_of("keith", race, true),
            "light 42, with a seventh 48; dark 45; light is 3 behind; redouble from 3 behind, take "
            "up to 2 behind");
  EXPECT_EQ(sum_of("keith", stacked),
            "light 20, with a seventh 22; dark 10 + 8 = 18; light is 4 behind; double from 4 "
            "behind, take up to 2 behind");
  EXPECT_EQ(sum_of("kleinman", race),
            "D = 3, S = 87: (3 + 4)² / (87 - 4) = 49 / 83 = 0.59; double from 0.44, take up to "
            "1.2");
  EXPECT_EQ(sum_of("thorp", stacked),
            "light 20 + 2 x 4 + 0 - 3 = 25; dark 10 + 2 x 5 + 4 - 2 = 22; light is 3 behind; "
            "double from 2 behind, take up to 2 ahead");
  EXPECT_EQ(sum_of("ward", stacked),
            "light 20; dark 10 + 6 + 2 = 18; 18 - 20 = -2, and -2 / 20 = -10%; double from 8%, "
            "take up to 12%");
  EXPECT_EQ(sum_of("low-wastage", race),
            "last take (42 - 5) / 7 = 5.3, rounded down 5; 45 - 42 = 3: light is 3 ahead; double "
            "from 2 ahead, take up to 5 ahead");
  EXPECT_EQ(sum_of("kleinman", "light 6x9; dark 1x1; light to roll"),
            "D = -53, S = 55: D + 4 is not above 0, so it counts 0; double from 0.44, take up to "
            "1.2");
}

/// Reckons with numbers, + - x / ( ) and a square, as they stand in a sum.
class Arithmetic {
 public:
  explicit Arithmetic(std::string_view text) : text_(text) {}
  double value() {
    double left = product();
    while (true) {
      if (take(" + ")) {
        left += product();
      } else if (take(" - ")) {
        left -= product();
      } else {
        return left;
      }
    }
  }

 private:
  double product() {
    double left = atom();
    while (true) {
      if (take(" x ")) {
        left *= atom();
      } else if (take(" / ")) {
        left /= atom();
      } else {
        return left;
      }
    }
  }
  double atom() {
    double result = 0;
    if (take("(")) {
      result = value();
      EXPECT_TRUE(take(")")) << text_;
    } else {
      std::size_t used = 0;
      result = std::stod(std::string(text_), &used);
      text_.remove_prefix(used);
    }
    return take("²") ? result * result : result;
  }
  bool take(std::string_view word) {
    if (!text_.starts_with(word)) return false;
    text_.remove_prefix(word.size());
    return true;
  }
  std::string_view text_;
};

/// Checks every "A = B" of a sum; returns how many there were. Numbers are rounded to a tenth, or
/// where they are small to a hundredth.
int check_equations(const std::string& sum) {
  int checked = 0;
  for (std::size_t at = sum.find(" = "); at != std::string::npos; at = sum.find(" = ", at + 1)) {
    const std::string_view before = std::string_view(sum).substr(0, at);
    std::size_t begin = before.find_last_of(";:,=");
    begin = begin == std::string_view::npos ? 0 : begin + 1;
    const std::size_t first = before.find_first_of("(-0123456789", begin);
    if (first == std::string_view::npos) continue;  // "D = 3" names a number
    const double left = Arithmetic(before.substr(first)).value();
    const double right = Arithmetic(std::string_view(sum).substr(at + 3)).value();
    const std::size_t behind = sum.find_first_not_of("-.0123456789", at + 3);
    const bool per_cent = behind != std::string::npos && sum[behind] == '%';
    // The numbers on the left may be rounded themselves.
    EXPECT_NEAR(per_cent ? 100 * left : left, right, per_cent ? 0.35 : 0.1) << sum;
    ++checked;
  }
  return checked;
}

TEST(RuleSums, AddUpOnRaces) {
  std::mt19937 random(7);  // NOLINT(*-msc51-cpp): the same races every time
  int equations = 0;
  for (int trial = 0; trial < 400; ++trial) {
    // Outside the home board the effective count takes a table that is long to build.
    const bool home = trial % 4 != 0;
    RaceView view;
    for (Camp* camp : {&view.on_roll, &view.waiting}) {
      const int checkers = 1 + static_cast<int>(random() % 15);
      for (int i = 0; i < checkers; ++i) ++(*camp)[1 + random() % (home ? 6 : 18)];
      (*camp)[0] = static_cast<std::uint8_t>(15 - checkers);
    }
    for (const RuleOfThumb& rule : rules_of_thumb()) {
      if (!home && rule.id == "effective") continue;
      const bool owned = trial % 2 == 1;
      const std::string sum = rule.sum({view, "light", "dark", owned});
      equations += check_equations(sum);
      EXPECT_NE(sum.find(owned ? "redouble from" : "; double from"), std::string::npos) << sum;
    }
  }
  EXPECT_GT(equations, 2000);
}

}  // namespace
}  // namespace pointwright

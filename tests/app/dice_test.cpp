#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/app/command_line.hpp"
#include "web/sealed_dice.hpp"

/// The verb `dice`: whether the program's dice were settled beforehand.
namespace pointwright::app {
namespace {

using testing::HasSubstr;

std::string throw_text(int number, bool turned = false, const std::string& words = {}) {
  auto dice = web::sealed_throw("evening", words, number);
  if (turned) std::swap(dice[0], dice[1]);
  return std::to_string(dice[0]) + "-" + std::to_string(dice[1]);
}

// The digest is that of `printf evening | sha256sum` (GNU coreutils 9.1).
const std::string seal = "e5bd0801d10e5965354604c20443ddf47fdfc375115151277a525467ad4816a3";

TEST(Dice, SaysWhetherSealAndThrowsFollowFromTheSeed) {
  const Outcome right =
      command({"dice", "evening", "--seal", seal, throw_text(0), "?", throw_text(2, true)});
  EXPECT_EQ(right.exit, 0) << right.out;
  EXPECT_THAT(right.out, HasSubstr("the seed fits it"));
  EXPECT_EQ(command({"dice", "evening", "--first", "2", throw_text(2), throw_text(3)}).exit, 0);
  EXPECT_EQ(
      command({"dice", "evening", "--words", "for Ann", throw_text(0, false, "for Ann")}).exit, 0);
}

TEST(Dice, SaysWhatDiffers) {
  int wrong = 0;
  for (int high = 1; high <= 6; ++high) {
    for (int low = 1; low <= high; ++low) {
      const std::string noted = std::to_string(high) + "-" + std::to_string(low);
      const Outcome outcome = command({"dice", "evening", noted, "--json"});
      EXPECT_EQ(outcome.json()["holds"], outcome.exit == 0);
      if (outcome.exit == 1) ++wrong;
    }
  }
  EXPECT_EQ(wrong, 20);  // one of the 21 rolls is the right one
  const std::string other = "f" + seal.substr(1);
  const Outcome outcome = command({"dice", "evening", "--seal", other});
  EXPECT_EQ(outcome.exit, 1);
  EXPECT_THAT(outcome.out, HasSubstr("the seed does not fit the one given"));
  EXPECT_EQ(command({"dice", "Evening", "--seal", seal}).exit, 1);
}

TEST(Dice, MakesThrowsAgain) {
  const Json answer = command({"dice", "evening", "--count", "500", "--json"}).json();
  ASSERT_EQ(answer["throws"].size(), 500U);
  EXPECT_EQ(answer["fits"], nullptr);
  EXPECT_EQ(answer["seal"], seal);
  for (int number = 0; number < 500; ++number) {
    const auto dice = web::sealed_throw("evening", "", number);
    EXPECT_EQ(answer["throws"][static_cast<std::size_t>(number)]["dice"], Json(dice));
  }
}

TEST(Dice, ReadsNoNonsense) {
  for (const std::vector<std::string>& more :
       std::vector<std::vector<std::string>>{{"7-1"},
                                             {"0-1"},
                                             {"31"},
                                             {"3-1-2"},
                                             {""},
                                             {"3-"},
                                             {"--seal", "abc"},
                                             {"--count", "-1"},
                                             {"--count", "100001"},
                                             {"--first", "x"}}) {
    std::vector<std::string> line{"dice", "evening"};
    line.insert(line.end(), more.begin(), more.end());
    EXPECT_EQ(command(line).exit, 2) << more.front();
  }
  EXPECT_THAT(command({"dice"}).err, HasSubstr("missing-seed"));
}

}  // namespace
}  // namespace pointwright::app

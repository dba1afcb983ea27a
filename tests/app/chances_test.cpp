#include "app/chances.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "chance/next_roll.hpp"
#include "chance/two_rolls.hpp"
#include "tests/app/command_line.hpp"

namespace pointwright::app {
namespace {

using testing::HasSubstr;

// One checker that can hit, six pips before the blot, and nothing in the way: 17 of 36
// (Encyclopaedia Britannica, 9th edition, "Backgammon", odds table).
constexpr const char* six_away = "light 12x1; dark 19x1 1x2; light to roll";

TEST(Chances, CountsAnEventInTheFormForOtherPrograms) {
  const Outcome answer = command({"chances", "--json", six_away, "hit"});
  ASSERT_EQ(answer.exit, exit_fine);
  const Json json = answer.json();
  EXPECT_EQ(json["position"], "light 12x1 offx14; dark 19x1 1x2 offx12; light to roll");
  EXPECT_EQ(json["event"], "hit");
  EXPECT_EQ(json["ways"], 17);
  EXPECT_EQ(json["fraction"], "17/36");
  EXPECT_EQ(json["known"], "exact");
  EXPECT_THAT(json["sentence"].get<std::string>(), HasSubstr("17 of the 36 rolls"));
  int marked = 0;
  for (const Json& row : json["grid"]) {
    for (const Json& cell : row) marked += cell.get<bool>() ? 1 : 0;
  }
  EXPECT_EQ(marked, 17);
  EXPECT_EQ(json["rolls"].size(), 10U);  // six with a 6 and 5-1, 4-2, 3-3, 2-2
}

TEST(Chances, TheEventMayBeOneArgumentOrSeveral) {
  const Outcome one = command({"chances", "--json", six_away, "must hit 6 and safe"});
  const Outcome several =
      command({"chances", "--json", six_away, "must", "hit", "6", "and", "safe"});
  EXPECT_EQ(one.exit, exit_fine);
  EXPECT_EQ(one.out, several.out);
  EXPECT_EQ(one.json()["event"], "must (hit 6 and safe)");
}

TEST(Chances, PrintsTheGridOnRequestOnly) {
  const std::string row = "    6  x  x  x  x  x  x\n";
  EXPECT_THAT(command({"chances", "--grid", six_away, "hit"}).out, HasSubstr(row));
  const std::string plain = command({"chances", six_away, "hit"}).out;
  EXPECT_THAT(plain, testing::Not(HasSubstr(row)));
  EXPECT_THAT(plain, HasSubstr("17 of 36  47.22%  exact"));
}

TEST(Chances, TheCardHoldsEveryEventOfTheBoardWithItsCount) {
  const Outcome answer = command({"chances", "--json", six_away});
  ASSERT_EQ(answer.exit, exit_fine);
  const Json card = answer.json()["card"];
  const auto read = read_position(six_away);
  ASSERT_TRUE(read.ok());
  const auto expected = chance::card(chance::NextRoll(read->board, Side::light));
  ASSERT_EQ(card.size(), expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    EXPECT_EQ(card[i]["event"], to_text(expected[i].query));
    EXPECT_EQ(card[i]["ways"], expected[i].count.ways);
  }
  EXPECT_THAT(command({"chances", six_away}).out, HasSubstr("hit"));
}

TEST(Chances, SaysThatARollIsPassedOver) {
  const std::string rolled = "light 12x1; dark 19x1 1x2; light to play 2-1";
  const Outcome words = command({"chances", rolled, "hit"});
  EXPECT_EQ(words.exit, exit_fine);
  EXPECT_THAT(words.err, HasSubstr("2-1 is passed over"));
  EXPECT_THAT(words.out, HasSubstr("17 of 36"));
  const Json json = command({"chances", "--json", rolled, "hit"}).json();
  EXPECT_EQ(json["roll_ignored"], "2-1");
  EXPECT_EQ(json["ways"], 17);
}

TEST(Chances, AsksForNowOrTheNextTurn) {
  const Json any = command({"chances", "--json", "--next", six_away, "hit"}).json()["now_or_next"];
  const Json pips = command({"chances", "--json", "--next", "--reply", "pips", six_away, "hit"})
                        .json()["now_or_next"];
  const int now = 17 * 36 * 36;
  EXPECT_EQ(any["of"], 36 * 36 * 36);
  EXPECT_GE(any["least"].get<int>(), now);
  EXPECT_LE(any["least"].get<int>(), pips["least"].get<int>());
  EXPECT_GE(any["most"].get<int>(), pips["most"].get<int>());
  EXPECT_EQ(pips["least"], pips["most"]);  // a chosen reply leaves no range
  const Json table = command({"chances", "--json", "--next", "--reply", "table", six_away, "hit"})
                         .json()["now_or_next"];
  EXPECT_EQ(table["reply"], "table");
  EXPECT_EQ(table["least"], table["most"]);
  EXPECT_THAT(command({"chances", "--next", six_away, "hit"}).out,
              HasSubstr("Now or on the next turn"));
}

TEST(Chances, RefusesWhatItCannotAnswer) {
  const auto id = [](const std::vector<std::string>& arguments) {
    const Outcome answer = command(arguments);
    EXPECT_EQ(answer.exit, exit_bad_input);
    return answer.json()["error"]["id"].get<std::string>();
  };
  EXPECT_EQ(id({"chances", "--json", "start", "hit"}), "no-turn");
  EXPECT_EQ(id({"chances", "--json", "light 6x1; dark offx15", "hit"}), "game-over");
  EXPECT_EQ(id({"chances", "--json", six_away, "fly"}), "no-such-event");
  EXPECT_EQ(id({"chances", "--json", "--next", six_away}), "missing-event");
  EXPECT_EQ(id({"chances", "--json", "--next", six_away, "must", "hit"}), "next-needs-can");
  EXPECT_EQ(command({"chances"}).exit, exit_bad_input);
  EXPECT_EQ(command({"chances", "--reply", "maybe", six_away, "hit"}).exit, exit_bad_input);
}

TEST(Chances, ABatchAnswersInOrderWithErrorsInPlace) {
  const std::string input = std::string(six_away) + " | hit\n\n" + "start | hit\n" +
                            std::string(six_away) + "\n" + std::string(six_away) + " | fly\n";
  const Outcome answer = command({"chances", "--batch"}, input);
  EXPECT_EQ(answer.exit, exit_bad_input);
  const auto lines = answer.lines();
  ASSERT_EQ(lines.size(), 4U);
  EXPECT_EQ(lines[0]["ways"], 17);
  EXPECT_EQ(lines[1]["error"]["id"], "no-turn");
  EXPECT_TRUE(lines[2].contains("card"));
  EXPECT_EQ(lines[3]["error"]["id"], "no-such-event");
  EXPECT_EQ(lines[3]["error"]["at"]["line"], 5);
  const std::size_t at = std::string(six_away).size() + 3;
  EXPECT_EQ(lines[3]["error"]["at"]["begin"], at);
}

}  // namespace
}  // namespace pointwright::app

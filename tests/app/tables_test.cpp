#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>

#include "app/cards.hpp"
#include "tests/app/command_line.hpp"
#include "tests/app/temporary_folder.hpp"

namespace pointwright::app {
namespace {

using testing::HasSubstr;
using testing::Not;

/// The column of a card, in the order of its rows.
std::vector<std::string> column(const Json& card, std::size_t index) {
  std::vector<std::string> result;
  for (const Json& row : card["rows"]) result.push_back(row[index]);
  return result;
}

TEST(Tables, TheShotsAreThoseOfThePublishedTable) {
  const Json card = command({"tables", "--json", "shots"}).json();
  // Encyclopaedia Britannica, 9th edition, "Backgammon": 1 to 12 pips. Farther: exact counts.
  EXPECT_THAT(column(card, 0), testing::ElementsAre("1", "2", "3", "4", "5", "6", "7", "8", "9",
                                                    "10", "11", "12", "15", "16", "18", "20"));
  EXPECT_THAT(column(card, 1), testing::ElementsAre("11", "12", "14", "15", "15", "17", "6", "6",
                                                    "5", "3", "2", "3", "1", "1", "1", "1"));
}

TEST(Tables, EnteringIsThatOfThePublishedTable) {
  const Json card = command({"tables", "--json", "entering"}).json();
  // Jacoby and Crawford, The Backgammon Book, 1970, ch. 4: 36 - k².
  EXPECT_THAT(column(card, 1), testing::ElementsAre("36", "35", "32", "27", "20", "11", "0"));
  // Both of two checkers: both dice must show open points, (6 - k)².
  EXPECT_THAT(column(card, 3), testing::ElementsAre("36", "25", "16", "9", "4", "1", "0"));
}

TEST(Tables, EveryCardIsWholeAndSaysHowItIsKnown) {
  for (const CardMaker& maker : card_makers()) {
    if (maker.name == "rules") continue;  // made from all small races: see the page
    const Card card = maker.make();
    EXPECT_EQ(card.name, maker.name);
    EXPECT_FALSE(card.rows.empty());
    for (const auto& row : card.rows) EXPECT_EQ(row.size(), card.columns.size()) << card.name;
    EXPECT_TRUE(card.note.find("xact") != std::string::npos ||
                card.note.find("odelled") != std::string::npos)
        << card.name;
    EXPECT_THAT(command({"tables", std::string(maker.name)}).out, HasSubstr(card.title));
  }
}

TEST(Tables, WritesAPageThatFetchesNothingAndAPicture) {
  const TemporaryFolder folder;
  const std::string page = (folder / "card.html").string();
  const std::string picture = (folder / "card.svg").string();
  ASSERT_EQ(command({"tables", "shots", "--html", page, "--svg", picture}).exit, exit_fine);
  EXPECT_THAT(contents(page), HasSubstr("default-src 'none'; style-src 'sha256-"));
  EXPECT_THAT(contents(page), Not(HasSubstr("http:")));
  EXPECT_THAT(contents(page), HasSubstr("<th scope=\"row\">12</th>"));
  EXPECT_THAT(contents(picture), HasSubstr(">pips away</text>"));
  EXPECT_EQ(command({"tables", "shots", "--html", "/no/such/folder/x.html"}).exit, exit_bad_input);
}

TEST(Tables, BuildsATableAndFindsItSoundOrDamaged) {
  const TemporaryFolder folder;
  const std::string file = (folder / "six").string();
  const Json built =
      command({"tables", "build", "--json", "--checkers", "6", "--file", file}).json();
  EXPECT_EQ(built["bytes"], 64 + 16 * 924 * 924);
  const Json sound = command({"tables", "check", "--json", file}).json();
  EXPECT_TRUE(sound["sound"].get<bool>());
  EXPECT_EQ(sound["holds"], "races of up to 6 checkers a side");
  {
    std::fstream stream(file, std::ios::binary | std::ios::in | std::ios::out);
    stream.seekp(1000);
    stream << "spoilt";
  }
  const Outcome damaged = command({"tables", "check", file});
  EXPECT_EQ(damaged.exit, exit_no);
  EXPECT_THAT(damaged.out, HasSubstr("damaged"));
}

TEST(Tables, RefusesWhatItCannotAnswer) {
  const auto id = [](const std::vector<std::string>& arguments) {
    const Outcome answer = command(arguments);
    EXPECT_EQ(answer.exit, exit_bad_input);
    return answer.json()["error"]["id"].get<std::string>();
  };
  EXPECT_EQ(id({"tables", "--json", "shot"}), "no-such-card");
  EXPECT_EQ(id({"tables", "--json", "check"}), "missing-file");
  EXPECT_EQ(id({"tables", "--json", "check", "/no/such/file"}), "cannot-read");
  EXPECT_EQ(id({"tables", "--json", "build", "--checkers", "11"}), "no-such-size");
  EXPECT_EQ(id({"tables", "--json", "build", "--checkers", "6", "--file", "/dev/null/x"}),
            "not-built");
  EXPECT_EQ(command({"tables"}).exit, exit_fine);
}

}  // namespace
}  // namespace pointwright::app

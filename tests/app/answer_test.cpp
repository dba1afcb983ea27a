#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/app/command_line.hpp"
#include "tests/app/temporary_folder.hpp"

/// The verb `answer`.
namespace pointwright::app {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

const std::string on_bar = "light barx1 6x2; dark 5x2 3x2; light to play 6-4";

TEST(Answer, ARefusedPlayHasItsReason) {
  const Outcome answer = command({"answer", on_bar, "--play", "6/2", "--names", "Ivory,Walnut"});
  EXPECT_EQ(answer.exit, exit_fine) << answer.err;
  EXPECT_THAT(answer.out, HasSubstr("6/2 is refused."));
  EXPECT_THAT(answer.out, HasSubstr("Ivory"));
  EXPECT_THAT(answer.out, HasSubstr("bar"));
}

TEST(Answer, AnAllowedPlayIsCountedAmongItsFellows) {
  const Outcome answer =
      command({"answer", "start; light to play 3-1", "--play", "6/5 8/5", "--json"});
  EXPECT_EQ(answer.json()["answer"], "8/5 6/5 is allowed");
  // The sixteen plays of 3-1 from the start are counted in tests/rules too.
  EXPECT_THAT(answer.json()["reason"].get<std::string>(), HasSubstr("one of the 16 plays"));
}

TEST(Answer, AChanceIsCounted) {
  // A blot six pips away, nothing in between: 17 rolls of 36 (Encyclopaedia Britannica, 9th
  // edition, "Backgammon").
  const Outcome answer =
      command({"answer", "light 12x1; dark 19x1; light to roll", "--chance", "hit", "--json"});
  EXPECT_EQ(answer.json()["answer"], "17 of 36 rolls") << answer.out;
}

TEST(Answer, ABestPlayIsSaidToBeAndAnotherCosts) {
  // Settled openings: 3-1 8/5 6/5; 5-1 24/18 is clearly worse than 24/23 13/8 (Kit Woolsey, "What
  // are the best ways to play the opening rolls?", 1995).
  const Outcome best =
      command({"answer", "start; light to play 3-1", "--best", "8/5 6/5", "--json"});
  EXPECT_EQ(best.json()["answer"], "8/5 6/5 is the best play") << best.out << best.err;
  EXPECT_EQ(best.json()["known"], "searched");
  EXPECT_FALSE(best.json()["reason"].get<std::string>().empty());
  const Outcome other =
      command({"answer", "start; light to play 5-1", "--best", "24/18", "--json"});
  EXPECT_THAT(other.json()["answer"].get<std::string>(), StartsWith("24/18 costs 0."));
  EXPECT_THAT(other.json()["answer"].get<std::string>(), HasSubstr("best is 24/23 13/8"));
  const Outcome refused = command({"answer", on_bar, "--best", "6/2", "--json"});
  EXPECT_EQ(refused.json()["answer"], "6/2 is refused");
}

TEST(Answer, APictureHasItsWordsInside) {
  const TemporaryFolder folder;
  const std::string file = (folder / "card.png").string();
  const Outcome answer = command({"answer", on_bar, "--play", "6/2", "--output", file, "--json",
                                  "--link", "https://example.org/bench.html"});
  ASSERT_EQ(answer.exit, exit_fine) << answer.out;
  const std::string png = contents(file);
  EXPECT_THAT(png, StartsWith("\x89PNG"));
  EXPECT_THAT(png, HasSubstr("iTXtDescription"));
  EXPECT_THAT(png, HasSubstr(answer.json()["description"].get<std::string>()));
  EXPECT_EQ(answer.json()["link"],
            "https://example.org/bench.html#light_barx1_6x2_offx12;_dark_5x2_3x2_offx11;_light_to_"
            "play_6-4");
}

TEST(Answer, SaysWhatIsMissing) {
  EXPECT_THAT(command({"answer", on_bar}).err, HasSubstr("not said what is asked"));
  EXPECT_THAT(command({"answer", on_bar, "--play", "6/2", "--chance", "hit"}).err,
              HasSubstr("several questions"));
  EXPECT_THAT(command({"answer", "--play", "6/2"}).err, HasSubstr("no position"));
  EXPECT_EQ(command({"answer", "start", "--play", "6/2"}).exit, exit_bad_input);
  EXPECT_EQ(command({"answer", on_bar, "--play", "6/99"}).exit, exit_bad_input);
  EXPECT_EQ(command({"answer", on_bar, "--chance", "hits"}).exit, exit_bad_input);
}

}  // namespace
}  // namespace pointwright::app

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>
#include <regex>
#include <sstream>
#include <streambuf>

#include "app/files.hpp"
#include "app/text_board.hpp"
#include "studio/digest.hpp"
#include "tests/app/command_line.hpp"
#include "tests/app/temporary_folder.hpp"
#include "web/sealed_dice.hpp"

namespace pointwright::app {
namespace {

using testing::HasSubstr;
using testing::Not;

/// Standard input of somebody who reads what the program has printed before typing the next line.
class Typist : public std::streambuf {
 public:
  Typist(std::ostringstream& out, std::function<std::string(const std::string& shown)> type)
      : out_(out), type_(std::move(type)) {}

 protected:
  int_type underflow() override {
    const std::string all = out_.str();
    line_ = type_(all.substr(seen_));
    seen_ = all.size();
    if (line_.empty()) return traits_type::eof();
    line_ += '\n';
    setg(line_.data(), line_.data(), line_.data() + line_.size());
    return traits_type::to_int_type(line_.front());
  }

 private:
  std::ostringstream& out_;
  std::function<std::string(const std::string&)> type_;
  std::string line_;
  std::size_t seen_ = 0;
};

/// Plays as the hints say, takes what is offered, and never doubles.
class ByTheHints {
 public:
  std::string operator()(const std::string& shown) {
    if (shown.find("roll or double>") != std::string::npos) return "roll";
    if (shown.find("take or drop>") != std::string::npos) return "take";
    if (hinted_) {
      hinted_ = false;
      moved_ = true;
      return shown.substr(2, shown.find("  ", 2) - 2);
    }
    if (moved_) {
      moved_ = false;
      return "done";
    }
    hinted_ = true;
    return "hint";
  }

 private:
  bool hinted_ = false;
  bool moved_ = false;
};

Outcome play(const std::vector<std::string>& options,
             std::function<std::string(const std::string&)> type) {
  std::ostringstream out;
  std::ostringstream err;
  Typist typist(out, std::move(type));
  std::istream in(&typist);
  Io io{.in = in, .out = out, .err = err};
  std::vector<std::string> arguments{"play"};
  arguments.insert(arguments.end(), options.begin(), options.end());
  const int exit = Program{}.run(arguments, io);
  return {.exit = exit, .out = out.str(), .err = err.str()};
}

TEST(TextBoard, ShowsBothSidesFromTheViewersSeat) {
  const Position start =
      *read_position("light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; light to roll");
  const std::string light = text_board(start, Side::light);
  EXPECT_THAT(light, HasSubstr("  13  14  15  16  17  18 |  19  20  21  22  23  24\n"));
  EXPECT_THAT(light, HasSubstr("  L5   .   .   .  D3   . |  D5   .   .   .   .  L2"));
  EXPECT_THAT(light, HasSubstr("  D5   .   .   .  L3   . |  L5   .   .   .   .  D2"));
  EXPECT_THAT(light, HasSubstr("cube: 1 in the middle"));
  EXPECT_THAT(text_board(start, Side::dark), HasSubstr("  D5   .   .   .  L3   . |  L5"));
}

TEST(Play, AWholeGameIsPlayedAndItsRecordProved) {
  const TemporaryFolder folder;
  const std::string file = (folder.path() / "game.md").string();
  const Outcome game =
      play({"--level", "newcomer", "--seed", "first game", "--record", file}, ByTheHints{});
  EXPECT_EQ(game.exit, exit_fine) << game.out;
  EXPECT_THAT(game.out, HasSubstr(web::commitment("first game")));
  EXPECT_THAT(game.out, HasSubstr("The seed was first game;"));
  // Whoever plays by the hints loses nothing by them.
  EXPECT_THAT(game.out, HasSubstr("Your plays cost 0.000 points"));
  const Outcome check = command({"check", file});
  EXPECT_EQ(check.exit, exit_fine) << check.err;
  const auto record = read_file(file, 1U << 20U);
  ASSERT_TRUE(record.ok());
  EXPECT_THAT(*record, HasSubstr("```show\n"));
  // The same seed and answers give the same game.
  EXPECT_EQ(play({"--level", "newcomer", "--seed", "first game"}, ByTheHints{}).out,
            game.out.substr(0, game.out.rfind("kept in")));
}

TEST(Play, AMatchIsKeptToItsEnd) {
  const TemporaryFolder folder;
  const std::string file = (folder.path() / "match.md").string();
  const Outcome match =
      play({"--level", "steady", "--side", "dark", "--match", "2", "--seed", "m", "--record", file},
           ByTheHints{});
  EXPECT_EQ(match.exit, exit_fine) << match.out;
  EXPECT_THAT(match.out, HasSubstr("wins the match"));
  EXPECT_EQ(command({"check", file}).exit, exit_fine);
}

TEST(Play, RefusesWhatTheRulesRefuseAndTakesBackUntilTheDiceAreLifted) {
  int step = 0;
  ByTheHints rest;
  const Outcome game = play({"--seed", "refused", "--no-cube"}, [&](const std::string& shown) {
    static const std::vector<std::string> lines{"13/1", "done",     "back", "back", "8/99",
                                                "2/1",  "back all", "help", "board"};
    if (step < static_cast<int>(lines.size())) return lines[static_cast<std::size_t>(step++)];
    return rest(shown);
  });
  EXPECT_EQ(game.exit, exit_fine);
  EXPECT_THAT(game.out, HasSubstr("refused by dice-numbers"));
  EXPECT_THAT(game.out, HasSubstr("No checker has been moved in this turn."));
  EXPECT_THAT(game.out, HasSubstr("light has no checker on 2."));
  EXPECT_THAT(game.out, HasSubstr("`done` lifts your dice"));
  EXPECT_THAT(game.out, Not(HasSubstr("double>")));
}

TEST(Play, ADoubleIsAnsweredAndADropEndsTheGame) {
  bool offered = false;
  bool done = false;
  ByTheHints rest;
  const Outcome game = play({"--seed", "cube", "--level", "steady"}, [&](const std::string& shown) {
    if (shown.find("roll or double>") != std::string::npos && !offered) {
      offered = true;
      return std::string("double");
    }
    if (shown.find("take or drop>") != std::string::npos && !done) {
      done = true;
      return std::string("drop");
    }
    return rest(shown);
  });
  EXPECT_TRUE(offered);
  EXPECT_EQ(game.exit, exit_fine);
  EXPECT_TRUE(game.out.find("dark takes.") != std::string::npos ||
              game.out.find("dark drops.") != std::string::npos);
}

TEST(Play, AProgramIsAskedInJson) {
  const Outcome played =
      command({"play", "--json", "--level", "strong", "--seed", "two"}, "hint\n8/2\nquit\n");
  EXPECT_EQ(played.exit, exit_no);
  const auto lines = played.lines();
  ASSERT_EQ(lines.size(), 4U) << played.out;
  const auto said = [&](std::size_t i) { return lines[i]["said"].dump(); };
  EXPECT_THAT(said(0), HasSubstr("SHA-256"));
  EXPECT_EQ(lines[0]["phase"], "move");
  EXPECT_THAT(lines[0]["position"].get<std::string>(), HasSubstr("light to play"));
  // The hint answers the first question; the move answers the second.
  EXPECT_THAT(said(1), HasSubstr("1 roll ahead"));
  EXPECT_THAT(lines[2]["checkers"].get<std::string>(), HasSubstr("8x2 6x5 2x1"));
  EXPECT_FALSE(lines[3]["finished"].get<bool>());
  EXPECT_TRUE(lines[3]["result"].is_null());
  EXPECT_THAT(said(3), HasSubstr("The seed was two"));
}

TEST(Play, IsBrokenOffWhenTheInputEnds) {
  const Outcome end = command({"play", "--seed", "x"}, "");
  EXPECT_EQ(end.exit, exit_no);
  EXPECT_THAT(end.out, HasSubstr("The seed was x;"));
  EXPECT_EQ(command({"play", "--seed", "x"}, "quit\n").exit, exit_no);
}

TEST(Play, BadOptionsAreRefused) {
  EXPECT_EQ(command({"play", "--level", "newcomr"}).exit, exit_bad_input);
  EXPECT_THAT(command({"play", "--level", "newcomr"}).err, HasSubstr("did you mean `newcomer`?"));
  EXPECT_EQ(command({"play", "--match", "0"}).exit, exit_bad_input);
  EXPECT_EQ(command({"play", "--match", "26"}).exit, exit_bad_input);
  EXPECT_EQ(command({"play", "--seed", ""}).exit, exit_bad_input);
  EXPECT_EQ(command({"play", "--seed", "x", "--record", "/no/such/folder/x.md"}, "").exit,
            exit_bad_input);
}

}  // namespace
}  // namespace pointwright::app

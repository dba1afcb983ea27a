#include "app/worth.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <cstdlib>
#include <fstream>
#include <iterator>

#include "app/interrupt.hpp"
#include "rollouts/rollout_file.hpp"
#include "tests/app/command_line.hpp"
#include "tests/app/temporary_folder.hpp"

namespace pointwright::app {
namespace {

using testing::HasSubstr;

constexpr const char* start = "start; light to roll";
constexpr const char* small_race = "light 5x1 2x1; dark 4x1 1x1; light to roll";

std::string error_id(const Outcome& outcome) {
  return outcome.json()["error"]["id"].get<std::string>();
}

std::vector<std::string> rollout(std::vector<std::string> more = {}) {
  std::vector<std::string> arguments{"worth",   "--json", start,       "--rollout", "72",
                                     "--rolls", "5",      "--threads", "1"};
  arguments.insert(arguments.end(), more.begin(), more.end());
  return arguments;
}

TEST(Worth, SaysHowItsNumbersAreKnown) {
  const Json searched = command({"worth", "--json", start}).json();
  EXPECT_EQ(searched["known"], "searched");
  EXPECT_EQ(searched["depth"], 1);
  // Common practice: to have the first roll is a small advantage.
  EXPECT_NEAR(searched["equity"].get<double>(), 0.07, 0.06);
  const Json exact = command({"worth", "--json", small_race}).json();
  EXPECT_EQ(exact["known"], "exact");
  EXPECT_EQ(exact["chances"]["win_gammon"], 0.0);
  EXPECT_EQ(command({"worth", "--json", "light 6x8; dark 6x8; light to roll"}).json()["known"],
            "combined");
  EXPECT_THAT(command({"worth", start}).out, HasSubstr("1 roll ahead"));
  EXPECT_THAT(command({"worth", small_race}).out, HasSubstr("exact: from a table of both sides"));
}

TEST(Worth, CountsInChancesOfTheMatch) {
  const Json json =
      command({"worth", "--json", std::string(start) + "; match to 3 score 1-1"}).json();
  EXPECT_NEAR(json["match_chance"].get<double>(), 0.52, 0.05);
  EXPECT_EQ(command({"worth", std::string(start) + "; match to 99 score 1-1"}).exit,
            exit_bad_input);
}

TEST(Worth, ARolloutIsTheSameOnAnyNumberOfThreads) {
  const Json one = command(rollout()).json();
  EXPECT_EQ(one["known"], "sampled");
  EXPECT_EQ(one["trials"], 72);
  EXPECT_GT(one["error"].get<double>(), 0);
  EXPECT_EQ(command({"worth", "--json", start, "--rollout", "72", "--rolls", "5", "--threads", "2"})
                .json(),
            one);
  EXPECT_NE(command(rollout({"--seed", "2"})).json()["equity"], one["equity"]);
}

TEST(Worth, PartsMergeToTheWhole) {
  const TemporaryFolder folder;
  const std::string first = (folder.path() / "one").string();
  const std::string second = (folder.path() / "two").string();
  const Json whole = command(rollout()).json();
  EXPECT_EQ(command(rollout({"--part", "1/2", "--resume", first})).json()["trials"], 36);
  EXPECT_EQ(error_id(command(rollout({"--merge", first}))), "parts-missing");
  EXPECT_EQ(command(rollout({"--part", "2/2", "--resume", second})).json()["part"], "2/2");
  EXPECT_EQ(command(rollout({"--merge", second, "--merge", first})).json(), whole);
  EXPECT_EQ(error_id(command(rollout({"--merge", first, "--merge", first}))), "cannot-merge");
  EXPECT_EQ(error_id(command(rollout({"--seed", "2", "--merge", first}))), "other-rollout");
}

TEST(Worth, AStateThatIsDamagedOrAnothersIsRefused) {
  const TemporaryFolder folder;
  const std::string file = (folder.path() / "state").string();
  const Json done = command(rollout({"--resume", file})).json();
  EXPECT_EQ(command(rollout({"--resume", file})).json(), done);
  const Outcome other = command(rollout({"--resume", file, "--seed", "3"}));
  EXPECT_EQ(other.exit, exit_bad_input);
  EXPECT_EQ(error_id(other), "other-rollout");
  std::string bytes;
  {
    std::ifstream in(file, std::ios::binary);
    bytes.assign(std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>());
  }
  bytes[50] = static_cast<char>(bytes[50] ^ 1);
  std::ofstream(file, std::ios::binary) << bytes;
  EXPECT_EQ(error_id(command(rollout({"--resume", file}))), "rollout-damaged");
  std::ofstream(file, std::ios::binary) << "nonsense";
  EXPECT_EQ(error_id(command(rollout({"--resume", file}))), "not-a-rollout");
  EXPECT_EQ(error_id(command(rollout({"--resume", "/no/such/folder/state"}))), "cannot-write");
}

TEST(Worth, AnInterruptLeavesAFileToGoOnFrom) {
  const TemporaryFolder folder;
  const std::string file = (folder.path() / "state").string();
  const std::string rest = std::string(" worth \"") + start +
                           "\" --rollout 50000000 --rolls 1 --threads 1 --resume " + file +
                           " > /dev/null 2> " + file + ".err";
  const int status = std::system(
      ("timeout --preserve-status -s INT 1 " + std::string(POINTWRIGHT_PROGRAM) + rest).c_str());
  EXPECT_EQ(WEXITSTATUS(status), exit_interrupted);
  std::ifstream err(file + ".err");
  const std::string text((std::istreambuf_iterator<char>(err)), std::istreambuf_iterator<char>());
  EXPECT_THAT(text, HasSubstr("interrupted"));
  EXPECT_THAT(text, HasSubstr("give the same command again"));
  const auto state = load_rollout(file);
  ASSERT_TRUE(state.ok()) << state.error().reason;
  EXPECT_GT(state->tally.trials, 0U);
}

TEST(Worth, ImpossibleQuestionsAreRefused) {
  for (const std::vector<std::string>& wrong :
       {std::vector<std::string>{"worth", start, "--depth", "3"},
        {"worth", start, "--depth", "-1"},
        {"worth", start, "--rollout", "0"},
        {"worth", start, "--rollout", "many"},
        {"worth", start, "--seed", "1"},
        {"worth", start, "--rollout", "36", "--depth", "1"},
        {"worth", start, "--rollout", "36", "--error", "20"},
        {"worth", start, "--rollout", "36", "--error", "nan"},
        {"worth", start, "--rollout", "36", "--part", "3/2", "--resume", "x"},
        {"worth", start, "--rollout", "36", "--part", "1/2"},
        {"worth", "--batch", "--rollout", "many"},
        {"worth", "--batch", "--rollout", "36", "--resume", "x"},
        {"worth", "light 6x1; dark offx15; light to roll"},
        {"worth", "light 6x16; dark 6x1; light to roll"},
        {"worth", "start"},
        {"worth"}}) {
    const Outcome outcome = command(wrong);
    EXPECT_EQ(outcome.exit, exit_bad_input) << wrong.back();
    EXPECT_TRUE(outcome.out.empty()) << wrong.back();
    EXPECT_FALSE(outcome.err.empty()) << wrong.back();
  }
}

TEST(Worth, ABatchAnswersInOrderWithErrorsInPlace) {
  const Outcome answer = command({"worth", "--batch", "--depth", "0"},
                                 std::string(small_race) + "\nnonsense\n" + start + "\n");
  EXPECT_EQ(answer.exit, exit_bad_input);
  const auto lines = answer.lines();
  ASSERT_EQ(lines.size(), 3U);
  EXPECT_EQ(lines[0]["known"], "exact");
  EXPECT_TRUE(lines[1].contains("error"));
  EXPECT_EQ(lines[2]["depth"], 0);
}

TEST(Worth, ABatchMayBeRolledOut) {
  const std::vector<std::string> how{"--rollout", "36", "--rolls", "3", "--threads", "1"};
  const auto with = [&](std::vector<std::string> words) {
    words.insert(words.end(), how.begin(), how.end());
    return words;
  };
  const Outcome batch = command(with({"worth", "--batch"}), std::string(start) + "\nnonsense\n");
  EXPECT_EQ(batch.exit, exit_bad_input);
  const auto lines = batch.lines();
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_EQ(lines[0], command(with({"worth", "--json", start})).json());
  EXPECT_EQ(lines[0]["known"], "sampled");
  EXPECT_TRUE(lines[1].contains("error"));
}

}  // namespace
}  // namespace pointwright::app

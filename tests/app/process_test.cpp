#include <fcntl.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <string>

#include "app/json.hpp"

/// The program itself, as the shell and other programs meet it.
namespace pointwright::app {
namespace {

using testing::HasSubstr;
using testing::Not;

struct ShellOutcome {
  int exit = -1;
  std::string output;
};

/// Runs a shell command in which $P is the program.
ShellOutcome shell(const std::string& command) {
  ShellOutcome outcome;
  std::FILE* pipe = popen(("P='" POINTWRIGHT_PROGRAM "'; " + command).c_str(), "r");
  if (pipe == nullptr) return outcome;
  char buffer[4096];
  while (const std::size_t got = std::fread(buffer, 1, sizeof buffer, pipe)) {
    outcome.output.append(buffer, got);
  }
  const int status = pclose(pipe);
  if (WIFEXITED(status)) outcome.exit = WEXITSTATUS(status);
  return outcome;
}

TEST(Process, ExitCodesReachTheShell) {
  EXPECT_EQ(shell("$P rule 'start; light to play 3-1' 8/5 6/5").exit, 0);
  EXPECT_EQ(shell("$P rule 'start; light to play 3-1' 8/5").exit, 1);
  EXPECT_EQ(shell("$P rule 'start; light to play 3-1' 8/99 2>&1").exit, 2);
  EXPECT_EQ(shell("$P 2>&1").exit, 2);
}

TEST(Process, UsesNoColourInAPipe) {
  const ShellOutcome outcome =
      shell("TERM=xterm $P rule 'start; light to play 3-1' 8/5; $P plays x 2>&1");
  EXPECT_THAT(outcome.output, HasSubstr("refused by both-dice"));
  EXPECT_THAT(outcome.output, HasSubstr("error:"));
  EXPECT_THAT(outcome.output, Not(HasSubstr("\x1b")));
}

TEST(Process, ReportsAFullDiskBehindStandardOutput) {
  for (const char* verb : {"plays 'start; light to play 3-1'", "draw start", "explain", "--help",
                           "plays --batch < /dev/null", "--version"}) {
    const ShellOutcome outcome = shell(std::string("$P ") + verb + " 2>&1 >/dev/full");
    const bool writes = std::string(verb).find("/dev/null") == std::string::npos;
    EXPECT_EQ(outcome.exit, writes ? 2 : 0) << verb;
    if (writes) EXPECT_THAT(outcome.output, HasSubstr("cannot be written")) << verb;
  }
}

/// A shell command that makes a folder $D, and lists and removes it at the end.
std::string in_a_folder(const std::string& command) {
  return "D=$(mktemp -d); cd $D; echo old > x.table; " + command +
         "; echo \"exit $?\"; ls; cat x.table; cd /; rm -r $D";
}

TEST(Process, AnInterruptedBuildOfATableLeavesNothingBehind) {
  // Two seconds: on a busy machine a program takes a while to begin.
  for (const char* table : {"--checkers 10", "--three-checker"}) {
    const ShellOutcome outcome =
        shell(in_a_folder(std::string("timeout --preserve-status -s INT 2 $P tables build ") +
                          table + " --file x.table 2>&1"));
    EXPECT_THAT(outcome.output, HasSubstr("the build was stopped; nothing was changed")) << table;
    EXPECT_THAT(outcome.output, HasSubstr("exit 130\nx.table\nold\n")) << table;
  }
}

TEST(Process, ATableThatTheDiskHasNoRoomForLeavesNothingBehind) {
  // A limit on the size of files stands in for a full disk: the system refuses the space alike.
  for (const char* table : {"--checkers 6", "--checkers 10", "--three-checker"}) {
    const ShellOutcome outcome = shell(in_a_folder(
        std::string("(ulimit -f 1000; $P tables build ") + table + " --file x.table 2>&1)"));
    EXPECT_THAT(outcome.output, HasSubstr("cannot write x.table: ")) << table;
    EXPECT_THAT(outcome.output, HasSubstr("nothing was changed on the disk")) << table;
    EXPECT_THAT(outcome.output, HasSubstr("exit 2\nx.table\nold\n")) << table;
  }
}

TEST(Process, ADeckThatTheDiskHasNoRoomForIsReportedAndKept) {
  // 60 KB is room for the deck as it is, and not for a hundred exercises more.
  const ShellOutcome outcome = shell(in_a_folder(
      "$P drill entering --count 3 --deck d.deck < /dev/null; "
      "(ulimit -f 60; $P drill shots --count 100 --deck d.deck < /dev/null 2>&1; echo \"rc $?\"); "
      "$P drill --deck d.deck < /dev/null"));
  EXPECT_THAT(outcome.output, HasSubstr("the deck d.deck cannot be written: "));
  EXPECT_THAT(outcome.output, HasSubstr("rc 2"));
  EXPECT_THAT(outcome.output, HasSubstr("0 new, 3 due of 3."));
}

TEST(Process, AFolderAsStandardInputIsAnError) {
  const ShellOutcome outcome = shell("$P plays --batch < /tmp 2>&1");
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_THAT(outcome.output, HasSubstr("cannot be read"));
}

#if !defined(__has_feature)
#define __has_feature(feature) 0
#endif
#if !__has_feature(address_sanitizer) && !__has_feature(thread_sanitizer)
TEST(Process, ABatchUsesBoundedMemory) {
  // 80 MB on one line, then ten thousand lines, with 64 MB of address space.
  const ShellOutcome outcome = shell(
      "ulimit -v 65536; { head -c 80000000 /dev/zero | tr '\\0' x; echo; "
      "yes 'light 6x1; dark 6x1; light to play 2-1' | head -n 10000; } | $P plays --batch "
      "| sort | uniq -c");
  EXPECT_THAT(outcome.output, HasSubstr("line-too-long"));
  EXPECT_THAT(outcome.output, HasSubstr(" 10000 {\"position\""));
}
#endif

/// The program with both ends of its standard streams in hand.
class Conversation {
 public:
  explicit Conversation(const char* verb) {
    int to[2];
    int from[2];
    if (pipe2(to, O_CLOEXEC) != 0 || pipe2(from, O_CLOEXEC) != 0) return;
    child_ = fork();
    if (child_ == 0) {
      dup2(to[0], STDIN_FILENO);
      dup2(from[1], STDOUT_FILENO);
      execl(POINTWRIGHT_PROGRAM, "pointwright", verb, "--batch", nullptr);
      _exit(127);
    }
    close(to[0]);
    close(from[1]);
    to_ = to[1];
    from_ = from[0];
  }
  Conversation(const Conversation&) = delete;
  Conversation& operator=(const Conversation&) = delete;
  ~Conversation() {
    close(to_);
    close(from_);
    waitpid(child_, nullptr, 0);
  }

  /// Sends a line and waits for the answer to it; empty if none comes within ten seconds.
  std::string ask(const std::string& line) const {
    const std::string text = line + "\n";
    if (write(to_, text.data(), text.size()) != static_cast<ssize_t>(text.size())) return {};
    std::string answer;
    while (!answer.ends_with('\n')) {
      pollfd waiting{.fd = from_, .events = POLLIN, .revents = 0};
      constexpr int ten_seconds = 10'000;
      if (poll(&waiting, 1, ten_seconds) != 1) return {};
      char buffer[4096];
      const ssize_t got = read(from_, buffer, sizeof buffer);
      if (got <= 0) return {};
      answer.append(buffer, static_cast<std::size_t>(got));
    }
    return answer;
  }

 private:
  pid_t child_ = -1;
  int to_ = -1;
  int from_ = -1;
};

TEST(Process, AnswersEachLineOfABatchAsItComes) {
  const Conversation plays("plays");
  for (int i = 0; i < 3; ++i) {
    const std::string answer = plays.ask("light 6x1; dark 6x1; light to play 2-1");
    ASSERT_FALSE(answer.empty());
    EXPECT_EQ(Json::parse(answer)["plays"].size(), 1U);
    const std::string error = plays.ask("nothing");
    ASSERT_FALSE(error.empty());
    EXPECT_EQ(Json::parse(error)["error"]["at"]["line"], 2 * i + 2);
  }
}

}  // namespace
}  // namespace pointwright::app

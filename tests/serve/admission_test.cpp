// Which requests are answered.
#include "serve/admission.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace pointwright::serve {
namespace {

using testing::ElementsAre;

constexpr int port = 3612;

int status(std::string_view method, std::vector<std::string> hosts,
           std::vector<std::string> origins = {}) {
  const auto refused = refusal({method, std::move(hosts), std::move(origins)}, port);
  return refused ? refused->status : 200;
}

TEST(Admission, AnswersUnderTheNamesOfThisComputerAlone) {
  for (const char* host : {"127.0.0.1:3612", "localhost:3612", "LOCALHOST:3612", "[::1]:3612"})
    EXPECT_EQ(status("GET", {host}), 200) << host;
  for (const char* host :
       {"evil.example", "evil.example:3612", "127.0.0.1", "127.0.0.1:80", "127.0.0.1:36120",
        "127.0.0.1:3612.evil.example", "localhost.evil.example:3612", "evil.localhost:3612", "",
        "127.0.0.1:3612,evil.example", " 127.0.0.1:3612", "127.0.0.1:03612", "2130706433:3612",
        "[::1]", "[::ffff:127.0.0.1]:3612", "user@127.0.0.1:3612", "0.0.0.0:3612"})
    EXPECT_EQ(status("GET", {host}), 421) << host;
  EXPECT_EQ(status("GET", {}), 421);
  EXPECT_EQ(status("GET", {"127.0.0.1:3612", "127.0.0.1:3612"}), 421);
}

TEST(Admission, ABrowserLeavesOutThePortOfHttp) {
  EXPECT_FALSE(refusal({"GET", {"localhost"}, {}}, 80));
  EXPECT_FALSE(refusal({"GET", {"localhost:80"}, {}}, 80));
}

TEST(Admission, PagesFromElsewhereGetNoAnswer) {
  EXPECT_EQ(status("GET", {"localhost:3612"}, {"http://localhost:3612"}), 200);
  EXPECT_EQ(status("GET", {"localhost:3612"}, {"http://127.0.0.1:3612"}), 200);
  for (const char* origin : {"null", "http://evil.example", "https://localhost:3612",
                             "http://localhost:1", "http://localhost", "file://", ""})
    EXPECT_EQ(status("GET", {"localhost:3612"}, {origin}), 403) << origin;
}

TEST(Admission, ThingsCanBeReadAndNotChanged) {
  EXPECT_EQ(status("HEAD", {"localhost:3612"}), 200);
  for (const char* method :
       {"POST", "PUT", "DELETE", "PATCH", "OPTIONS", "CONNECT", "TRACE", "get", ""})
    EXPECT_EQ(status(method, {"localhost:3612"}), 405) << method;
}

TEST(Paths, AreNamesOneAfterTheOther) {
  EXPECT_THAT(*names_along("/a.pdf"), ElementsAre("a.pdf"));
  EXPECT_THAT(*names_along("/sheets/one more.pdf"), ElementsAre("sheets", "one more.pdf"));
  EXPECT_THAT(*names_along("/Übung.pdf"), ElementsAre("Übung.pdf"));
}

// Every path of up to five of these pieces: whatever is let through leads nowhere but down, and
// names nothing hidden.
TEST(Paths, NeverLeadOutOrToHiddenFiles) {
  const std::vector<std::string> pieces{"/", ".", "..", "a", "\\", std::string(1, '\0'), "~", "\n"};
  std::vector<std::string> paths{""};
  int admitted = 0;
  for (int length = 0; length < 5; ++length) {
    std::vector<std::string> longer;
    for (const std::string& path : paths) {
      for (const std::string& piece : pieces) longer.push_back(path + piece);
    }
    for (const std::string& path : longer) {
      const auto names = names_along(path);
      if (!names) continue;
      ++admitted;
      std::string again;
      for (const std::string& name : *names) {
        again += "/" + name;
        EXPECT_FALSE(name.empty());
        EXPECT_NE(name.front(), '.');
        EXPECT_EQ(name.find_first_of(std::string("/\\\n\0", 4)), std::string::npos);
      }
      EXPECT_EQ(again, path);
    }
    paths = std::move(longer);
  }
  EXPECT_GT(admitted, 0);
}

}  // namespace
}  // namespace pointwright::serve

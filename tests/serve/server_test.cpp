// The server over real connections: what a client of the library gets, and what somebody gets who
// writes bytes of his own.
#include "serve/server.hpp"

#include <arpa/inet.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <httplib.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <thread>

#include "tests/app/temporary_folder.hpp"

namespace pointwright::serve {
namespace {

namespace fs = std::filesystem;
using app::TemporaryFolder;
using testing::AnyOf;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::StartsWith;

void write(const fs::path& file, const std::string& text) {
  std::ofstream(file, std::ios::binary) << text;
}

/// A server of a folder `shown` that has something secret beside it.
class ServerTest : public testing::Test {
 protected:
  ServerTest() {
    fs::create_directories(home_ / "shown/deep");
    write(home_ / "secret.txt", "secret");
    fs::create_directories(home_ / "elsewhere");
    write(home_ / "elsewhere/secret.txt", "secret");
    const fs::path shown = home_ / "shown";
    write(shown / "sheet.txt", "a sheet");
    write(shown / "deep/sheet.txt", "a deep sheet");
    write(shown / ".secret.txt", "secret");
    fs::create_directories(shown / ".hidden");
    write(shown / ".hidden/secret.txt", "secret");
    write(shown / "secret.key", "secret");
    fs::create_symlink("../secret.txt", shown / "link.txt");
    fs::create_symlink("/etc/hostname", shown / "absolute.txt");
    fs::create_symlink("../elsewhere", shown / "way");
    fs::create_symlink("..", shown / "up");
    ::mkfifo((shown / "pipe.txt").c_str(), 0600);
    fs::create_directories(shown / "folder.txt");
    auto started = Server::start(shown, 0);
    if (!started.ok()) {
      ADD_FAILURE() << started.error().reason;
      return;
    }
    server_ = std::move(started.value());
    server_->show({"one", "<p>secretless"});
  }

  httplib::Client client() const { return httplib::Client("127.0.0.1", server_->port()); }
  [[nodiscard]] std::string host() const {
    return "Host: 127.0.0.1:" + std::to_string(server_->port()) + "\r\n";
  }

  /// A connection on which these bytes were sent as they are.
  [[nodiscard]] int sent(const std::string& bytes) const {
    const int socket = ::socket(AF_INET, SOCK_STREAM, 0);
    sockaddr_in to{};
    to.sin_family = AF_INET;
    to.sin_port = htons(static_cast<std::uint16_t>(server_->port()));
    to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    timeval patience{.tv_sec = 0, .tv_usec = 400'000};
    ::setsockopt(socket, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
    if (::connect(socket, reinterpret_cast<const sockaddr*>(&to), sizeof to) == 0)
      ::send(socket, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    return socket;
  }
  /// Some bytes of the answer; none when it is over or does not come.
  static std::string some(int socket) {
    std::string bytes(4096, '\0');
    const ssize_t got = ::recv(socket, bytes.data(), bytes.size(), 0);
    bytes.resize(got > 0 ? static_cast<std::size_t>(got) : 0);
    return bytes;
  }
  /// Sends bytes as they are, and reads until the server closes or says nothing more.
  [[nodiscard]] std::string raw(const std::string& bytes) const {
    const int socket = sent(bytes);
    std::string answer;
    for (std::string more; !(more = some(socket)).empty();) answer += more;
    ::close(socket);
    return answer;
  }
  [[nodiscard]] std::string get(const std::string& target) const {
    return raw("GET " + target + " HTTP/1.1\r\n" + host() + "Connection: close\r\n\r\n");
  }

  TemporaryFolder home_;
  std::unique_ptr<Server> server_;
};

TEST_F(ServerTest, ShowsThePageAndTheFilesOfTheFolder) {
  EXPECT_THAT(get("/"), HasSubstr("<p>secretless"));
  EXPECT_THAT(get("/?x=1"), HasSubstr("<p>secretless"));
  EXPECT_THAT(get("/sheet.txt"), HasSubstr("\r\n\r\na sheet"));
  EXPECT_THAT(get("/deep/sheet.txt"), HasSubstr("\r\n\r\na deep sheet"));
  EXPECT_THAT(get("/deep%2Fsheet.txt"), HasSubstr("\r\n\r\na deep sheet"));
  server_->show({"two", "<p>another"});
  EXPECT_THAT(get("/"), HasSubstr("<p>another"));
}

TEST_F(ServerTest, NothingOutsideOrHiddenIsShown) {
  for (const char* target : {"/../secret.txt",
                             "/%2e%2e/secret.txt",
                             "/..%2fsecret.txt",
                             "/%2e%2e%2fsecret.txt",
                             "/deep/../../secret.txt",
                             "/deep/%2e%2e/%2e%2e/secret.txt",
                             "//secret.txt",
                             "/./sheet.txt",
                             "/.secret.txt",
                             "/%2esecret.txt",
                             "/.hidden/secret.txt",
                             "/link.txt",
                             "/absolute.txt",
                             "/way/secret.txt",
                             "/up/secret.txt",
                             "/up/shown/sheet.txt",
                             "/pipe.txt",
                             "/folder.txt",
                             "/secret.key",
                             "/..\\secret.txt",
                             "/sheet.txt%00",
                             "/sheet.txt%00.txt",
                             "/%00",
                             "/deep",
                             "/deep/",
                             "/etc/hostname",
                             "/%252e%252e/secret.txt",
                             "/%c0%ae%c0%ae/secret.txt",
                             "/sheet.txt/",
                             "/sheet.txt/secret.txt",
                             "/%",
                             "/%u002e%u002e/secret.txt"}) {
    const std::string answer = get(target);
    EXPECT_THAT(answer, StartsWith("HTTP/1.1 404")) << target;
    EXPECT_THAT(answer, Not(AnyOf(HasSubstr("\r\n\r\nsecret"), HasSubstr("sheet\n")))) << target;
  }
}

TEST_F(ServerTest, OddRequestsGetNothing) {
  const std::string end = "\r\n";
  for (const std::string& request : std::vector<std::string>{
           "GET /sheet.txt HTTP/1.1\r\nHost: evil.example\r\n\r\n",
           "GET /sheet.txt HTTP/1.1\r\n\r\n", "GET /sheet.txt HTTP/1.0\r\n\r\n",
           "GET /sheet.txt HTTP/1.1\r\n" + host() + "Host: evil.example\r\n\r\n",
           "GET /sheet.txt HTTP/1.1\r\n" + host() + "Origin: http://evil.example\r\n\r\n",
           "POST /sheet.txt HTTP/1.1\r\n" + host() + "Content-Length: 3\r\n\r\nabc",
           "GET http://evil.example/sheet.txt HTTP/1.1\r\n" + host() + end,
           "GET sheet.txt HTTP/1.1\r\n" + host() + end, "GET /sheet.txt\r\n\r\n",
           std::string(200'000, 'a'), "GET /" + std::string(100'000, 'a') + " HTTP/1.1\r\n\r\n",
           std::string("\0\0\0\0\r\n\r\n", 8), std::string("\r\n\r\n")}) {
    EXPECT_THAT(raw(request), Not(HasSubstr("a sheet"))) << request.substr(0, 60);
  }
  EXPECT_THAT(get("/sheet.txt"), HasSubstr("a sheet"));  // and it is still there
}

TEST_F(ServerTest, ScriptsRunInNoFileAndNobodyFramesThePage) {
  auto http = client();
  const auto page = http.Get("/");
  ASSERT_TRUE(page);
  EXPECT_EQ(page->get_header_value("Content-Security-Policy"), "frame-ancestors 'none'");
  const auto file = http.Get("/sheet.txt");
  ASSERT_TRUE(file);
  EXPECT_THAT(file->get_header_value("Content-Security-Policy"), StartsWith("default-src 'none';"));
  for (const auto& answer : {page->headers, file->headers}) {
    EXPECT_EQ(answer.find("X-Content-Type-Options")->second, "nosniff");
    EXPECT_EQ(answer.find("Cross-Origin-Resource-Policy")->second, "same-origin");
    EXPECT_EQ(answer.find("Cache-Control")->second, "no-store");
    EXPECT_EQ(answer.count("Access-Control-Allow-Origin"), 0U);
  }
}

TEST_F(ServerTest, ALargeFileComesWholeAndInPieces) {
  std::string large(3'000'000, '\0');
  for (std::size_t i = 0; i < large.size(); ++i)
    large[i] = static_cast<char>(i * 2654435761U >> 13);
  write(home_ / "shown/film.mp4", large);
  write(home_ / "shown/empty.txt", "");
  auto http = client();
  const auto whole = http.Get("/film.mp4");
  ASSERT_TRUE(whole);
  EXPECT_TRUE(whole->body == large);
  const auto piece = http.Get("/film.mp4", {{"Range", "bytes=1000000-1000099"}});
  ASSERT_TRUE(piece);
  EXPECT_EQ(piece->status, 206);
  EXPECT_TRUE(piece->body == large.substr(1'000'000, 100));
  const auto empty = http.Get("/empty.txt");
  ASSERT_TRUE(empty);
  EXPECT_EQ(empty->status, 200);
  EXPECT_THAT(empty->body, IsEmpty());
}

TEST_F(ServerTest, TellsOfEachNewPage) {
  std::string told;
  std::thread changes([&] {
    std::this_thread::sleep_for(std::chrono::milliseconds(200));
    server_->show({"two", ""});
    std::this_thread::sleep_for(std::chrono::milliseconds(200));
    server_->show({"three", ""});
  });
  auto http = client();
  http.set_read_timeout(5);
  http.Get("/.events", [&](const char* data, std::size_t length) {
    told.append(data, length);
    return told.find("three") == std::string::npos;
  });
  changes.join();
  EXPECT_THAT(told, HasSubstr("event: page\ndata: one\n\nevent: page\ndata: two\n\nevent: page\n"
                              "data: three\n\n"));
}

TEST_F(ServerTest, EndsWhilePagesWait) {
  std::vector<std::thread> pages;
  pages.reserve(8);
  for (int i = 0; i < 8; ++i) {
    pages.emplace_back([port = server_->port()] {
      httplib::Client http("127.0.0.1", port);
      http.Get("/.events", [](const char*, std::size_t) { return true; });
    });
  }
  std::this_thread::sleep_for(std::chrono::milliseconds(300));
  server_.reset();
  for (std::thread& page : pages) page.join();  // a hang here fails by the time limit of the test
}

TEST_F(ServerTest, AnswersWhileMorePagesWaitThanMay) {
  std::vector<int> pages;
  int waiting = 0;
  for (int i = 0; i < 60; ++i) {
    pages.push_back(sent("GET /.events HTTP/1.1\r\n" + host() + "\r\n"));
    const std::string answer = some(pages.back());
    if (answer.starts_with("HTTP/1.1 200")) ++waiting;
    if (i >= 32) EXPECT_THAT(answer, StartsWith("HTTP/1.1 503"));
  }
  EXPECT_EQ(waiting, 32);
  EXPECT_THAT(get("/sheet.txt"), HasSubstr("a sheet"));
  for (const int page : pages) ::close(page);
}

TEST_F(ServerTest, APortIsNotShared) {
  const auto second = Server::start(home_.path(), server_->port());
  ASSERT_FALSE(second.ok());
  EXPECT_TRUE(second.error().port_is_taken) << second.error().reason;
}

}  // namespace
}  // namespace pointwright::serve

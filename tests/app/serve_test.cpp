#include <fcntl.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <httplib.h>
#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <fstream>
#include <set>
#include <thread>

#include "app/serve/preview.hpp"
#include "app/serve/watch.hpp"
#include "tests/app/command_line.hpp"
#include "tests/app/temporary_folder.hpp"

/// The verb `serve`: the page of a lesson while it is written.
namespace pointwright::app {
namespace {

namespace fs = std::filesystem;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

const std::string start = R"(---
title: A small lesson
---
Before the board.

```board first
start; light to play 3-1
```

Between the boards.

```board second
light 6x1; dark 6x1; light to play 2-1
```
)";

std::string claims(const std::string& claim) {
  return "\n```claims on first\n" + claim + "\n```\n\nAfter the claims.\n";
}

void write(const fs::path& file, const std::string& text) {
  std::ofstream(file, std::ios::binary) << text;
}

std::string page_of(const std::string& text) {
  const TemporaryFolder home;
  write(home / "lesson.md", text);
  return preview_page(*compile(home / "lesson.md")).html;
}

/// Whether a page holds these words. (Pages are too long to be printed by a failing test.)
bool holds(const std::string& page, const std::string& words) {
  return page.find(words) != std::string::npos;
}

std::size_t place_in(const std::string& page, const std::string& words) {
  const std::size_t place = page.find(words);
  EXPECT_NE(place, std::string::npos) << words;
  return place;
}

TEST(PreviewPage, SaysInPlaceWhatIsFalse) {
  const std::string text = R"(---
title: A small lesson
---
Before the board.

```board first
start; light to play 3-1
```

```claims
legal 8/5 6/5
legal 8/3
```

After the claims.
)";
  const std::string page = page_of(text);
  const std::size_t note = place_in(page, "id=\"note-1\"");
  EXPECT_LT(place_in(page, "Before the board."), note);
  EXPECT_LT(place_in(page, "--first\""), note);
  EXPECT_LT(note, place_in(page, "After the claims."));
  EXPECT_THAT(page.substr(note, 600),
              AllOf(HasSubstr("lesson.md, line 12, column 7"),
                    HasSubstr("<span class=\"line\">12</span>"), HasSubstr("<mark>")));
  EXPECT_TRUE(holds(page, "<a href=\"#note-1\">lesson.md, line 12"));
  EXPECT_TRUE(holds(page, "1 statement proved"));  // the claim that is true
}

TEST(PreviewPage, ShowsTheRestAroundABoardThatCannotStand) {
  std::string text = start;
  text.replace(text.find("start; light"), 12, "light 99x1; l");
  const std::string page = page_of(text);
  const std::size_t note = place_in(page, "id=\"note-1\"");
  EXPECT_LT(place_in(page, "Before the board."), note);
  EXPECT_LT(note, place_in(page, "Between the boards."));
  EXPECT_TRUE(holds(page, "--second\""));
  EXPECT_FALSE(holds(page, "--first\""));
}

TEST(PreviewPage, ShowsWhatIsNoLesson) {
  EXPECT_TRUE(holds(page_of("no front matter"), "id=\"note-1\""));
  EXPECT_TRUE(holds(page_of(""), "id=\"note-1\""));
  EXPECT_TRUE(holds(page_of("\xff\xfe"), "id=\"note-1\""));
  EXPECT_FALSE(holds(page_of("---\ntitle: <script>alert(1)</script>\n---\n"), "<script>alert"));
  EXPECT_THAT(page_of(start + claims("legal <script>alert(1)</script>")),
              Not(HasSubstr("<script>alert")));
}

TEST(PreviewPage, EveryDocumentOfTheLessonTestsGivesAPage) {
  int pages = 0;
  for (const auto& entry : fs::directory_iterator(POINTWRIGHT_SOURCE_DIR "/tests/lesson/cases")) {
    const auto compiled = compile(entry.path(), Reach::folder);
    if (!compiled.ok()) continue;
    const std::string page = preview_page(*compiled).html;
    EXPECT_TRUE(holds(page, "</html>")) << entry.path();
    std::size_t notes = 0;
    for (std::size_t at = 0; (at = page.find("id=\"note-", at)) != std::string::npos; ++at) ++notes;
    EXPECT_EQ(notes, compiled->diagnostics.size()) << entry.path();
    ++pages;
  }
  EXPECT_GT(pages, 8);
}

TEST(PreviewPage, EqualLessonsHaveEqualVersions) {
  const TemporaryFolder home;
  std::set<std::string> versions;
  for (const std::string& text : {start, start + "x", start + claims("legal 8/5 6/5"), start}) {
    write(home / "lesson.md", text);
    versions.insert(preview_page(*compile(home / "lesson.md")).version);
  }
  EXPECT_EQ(versions.size(), 3U);
}

TEST(PreviewPage, AChapterOutsideTheFolderIsNotRead) {
  const TemporaryFolder home;
  fs::create_directories(home / "course");
  write(home / "secret.md", start + "the secret words");
  write(home / "course/course.yaml", "title: T\nchapters: [one.md, two.md]\n");
  write(home / "course/real.md", start);
  fs::create_symlink("../secret.md", home / "course/one.md");
  fs::create_symlink("real.md", home / "course/two.md");
  const std::string page = preview_page(*compile(home / "course", Reach::folder)).html;
  EXPECT_TRUE(holds(page, "symbolic link that leads out of the folder"));
  EXPECT_FALSE(holds(page, "secret words"));
  EXPECT_TRUE(holds(page, "Between the boards."));
  EXPECT_EQ(compile(home / "course")->outcome(), lesson::Outcome::proved);
}

TEST(Watch, SeesWhatIsSavedAddedAndTakenAway) {
  const TemporaryFolder home;
  std::set<std::string> states{state_of(home.path())};
  write(home / "a.md", "one");
  states.insert(state_of(home.path()));
  write(home / "a.md", "three");
  states.insert(state_of(home.path()));
  write(home / "b.part", "other");  // as editors save: beside it, then in its place
  fs::rename(home / "b.part", home / "a.md");
  states.insert(state_of(home.path()));
  EXPECT_EQ(states.size(), 4U);
  write(home / ".a.md.swp", "x");
  EXPECT_EQ(states.count(state_of(home.path())), 1U);
  fs::remove(home / "a.md");
  EXPECT_EQ(state_of(home.path()), *states.begin());
  EXPECT_EQ(state_of(home / "nowhere"), "");
}

/// The program, serving; its answers line by line.
class Serving {
 public:
  explicit Serving(const fs::path& source) {
    int from[2];
    if (pipe2(from, O_CLOEXEC) != 0) return;
    child_ = fork();
    if (child_ == 0) {
      dup2(from[1], STDOUT_FILENO);
      execl(POINTWRIGHT_PROGRAM, "pointwright", "serve", source.c_str(), "--port", "0", "--json",
            nullptr);
      _exit(127);
    }
    close(from[1]);
    from_ = from[0];
    const std::string address = next().value("address", "http://127.0.0.1:0/");
    port_ = std::stoi(address.substr(address.rfind(':') + 1));
  }
  Serving(const Serving&) = delete;
  Serving& operator=(const Serving&) = delete;
  ~Serving() {
    if (child_ > 0) stop(SIGKILL);
    close(from_);
  }

  /// The next object, or an empty one if none comes within twenty seconds.
  Json next() {
    while (buffer_.find('\n') == std::string::npos) {
      pollfd waiting{.fd = from_, .events = POLLIN, .revents = 0};
      constexpr int twenty_seconds = 20'000;
      char bytes[4096];
      const ssize_t got =
          poll(&waiting, 1, twenty_seconds) == 1 ? read(from_, bytes, sizeof bytes) : 0;
      if (got <= 0) return Json::object();
      buffer_.append(bytes, static_cast<std::size_t>(got));
    }
    const std::size_t end = buffer_.find('\n');
    const Json object = Json::parse(buffer_.substr(0, end));
    buffer_.erase(0, end + 1);
    return object;
  }
  std::string outcome() { return next().value("outcome", "nothing"); }
  [[nodiscard]] int port() const { return port_; }
  [[nodiscard]] std::string page() const {
    const auto answer = httplib::Client("127.0.0.1", port_).Get("/");
    return answer ? answer->body : std::string{};
  }

  /// Sends a signal and returns the exit code, or minus the signal that ended it.
  int stop(int signal) {
    kill(child_, signal);
    int status = 0;
    waitpid(child_, &status, 0);
    child_ = -1;
    return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
  }

 private:
  pid_t child_ = -1;
  int from_ = -1;
  int port_ = 0;
  std::string buffer_;
};

TEST(Serve, ShowsALessonBrokenAndMended) {
  const TemporaryFolder home;
  const fs::path lesson = home / "lesson.md";
  write(lesson, start);
  Serving serving(lesson);
  EXPECT_EQ(serving.outcome(), "proved");
  EXPECT_TRUE(holds(serving.page(), "Between the boards."));
  EXPECT_FALSE(holds(serving.page(), "note-1"));

  write(lesson, start + claims("legal 8/3"));
  EXPECT_EQ(serving.outcome(), "false-claim");
  EXPECT_TRUE(holds(serving.page(), "id=\"note-1\""));

  write(lesson, "broken");
  EXPECT_EQ(serving.outcome(), "bad-input");
  EXPECT_TRUE(holds(serving.page(), "does not begin with its front matter"));

  fs::remove(lesson);
  EXPECT_TRUE(serving.next().contains("error"));
  EXPECT_TRUE(holds(serving.page(), "there is no"));

  write(lesson, start + claims("legal 8/5 6/5"));
  EXPECT_EQ(serving.outcome(), "proved");
  EXPECT_TRUE(holds(serving.page(), "1 statement proved"));
  EXPECT_FALSE(holds(serving.page(), "note-1"));
  EXPECT_EQ(serving.stop(SIGINT), 0);
}

TEST(Serve, ShowsTheLastOfManyEdits) {
  const TemporaryFolder home;
  write(home / "lesson.md", start);
  Serving serving(home / "lesson.md");
  EXPECT_EQ(serving.outcome(), "proved");
  std::vector<std::thread> editors;
  editors.reserve(4);
  for (int editor = 0; editor < 4; ++editor) {
    editors.emplace_back([&, editor] {
      for (int i = 0; i < 25; ++i) {
        const std::string part = "part" + std::to_string(editor);
        write(home / part, start + "edit " + std::to_string(100 * editor + i));
        fs::rename(home / part, home / "lesson.md");
      }
    });
  }
  for (std::thread& editor : editors) editor.join();
  write(home / "last", start + "the last word");
  fs::rename(home / "last", home / "lesson.md");
  for (int tries = 0; tries < 200 && serving.page().find("the last word") == std::string::npos;
       ++tries)
    std::this_thread::sleep_for(std::chrono::milliseconds(50));
  EXPECT_TRUE(holds(serving.page(), "the last word"));
  EXPECT_EQ(serving.stop(SIGTERM), 0);
}

TEST(Serve, SaysWhyItDoesNotStart) {
  const TemporaryFolder home;
  write(home / "lesson.md", start);
  const std::string lesson = home / "lesson.md";
  EXPECT_THAT(command({"serve"}).err, HasSubstr("missing-source"));
  EXPECT_THAT(command({"serve", home / "nowhere"}).err, HasSubstr("no-such-source"));
  EXPECT_THAT(command({"serve", home.path()}).err, HasSubstr("no-course"));
  for (const char* port : {"x", "-1", "65536", "", "80 ", "1e3"}) {
    const Outcome outcome = command({"serve", lesson, "--port", port});
    EXPECT_EQ(outcome.exit, 2) << port;
    EXPECT_THAT(outcome.err, HasSubstr("port")) << port;
  }
  Serving serving(home / "lesson.md");
  const Outcome taken =
      command({"serve", lesson, "--port", std::to_string(serving.port()), "--json"});
  EXPECT_EQ(taken.exit, 2);
  EXPECT_EQ(taken.json()["error"]["id"], "port-taken");
}

}  // namespace
}  // namespace pointwright::app

#include "app/files.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/stat.h>

#include <csignal>

#include "tests/app/temporary_folder.hpp"

namespace pointwright::app {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

/// While it lives, this process can write files of at most so many bytes: a disk that fills up.
class FullDisk {
 public:
  explicit FullDisk(rlim_t bytes) {
    std::signal(SIGXFSZ, SIG_IGN);
    getrlimit(RLIMIT_FSIZE, &before_);
    const rlimit limit{.rlim_cur = bytes, .rlim_max = before_.rlim_max};
    setrlimit(RLIMIT_FSIZE, &limit);
  }
  FullDisk(const FullDisk&) = delete;
  FullDisk& operator=(const FullDisk&) = delete;
  ~FullDisk() {
    setrlimit(RLIMIT_FSIZE, &before_);
    std::signal(SIGXFSZ, SIG_DFL);
  }

 private:
  rlimit before_{};
};

const std::string& reason(const std::optional<Failure>& failure) {
  return failure->faults.front().reason;
}

TEST(Files, WritesAndReplaces) {
  const TemporaryFolder folder;
  EXPECT_FALSE(write_file(folder / "page.html", "first"));
  EXPECT_EQ(contents(folder / "page.html"), "first");
  chmod((folder / "page.html").c_str(), 0640);
  EXPECT_FALSE(write_file(folder / "page.html", "second"));
  EXPECT_EQ(contents(folder / "page.html"), "second");
  struct stat status{};
  ASSERT_EQ(stat((folder / "page.html").c_str(), &status), 0);
  EXPECT_EQ(status.st_mode & 0777U, 0640U);
  EXPECT_THAT(folder.names(), ElementsAre("page.html"));
}

TEST(Files, AFullDiskLeavesTheOldFileAndNoRemains) {
  const TemporaryFolder folder;
  ASSERT_FALSE(write_file(folder / "page.html", "the old page"));
  const std::string large(100'000, 'x');
  {
    const FullDisk disk(10'000);
    const auto failed = write_file(folder / "page.html", large);
    ASSERT_TRUE(failed);
    EXPECT_THAT(reason(failed), HasSubstr("File too large"));
    EXPECT_TRUE(write_new_file(folder / "new.md", large));
    EXPECT_TRUE(write_new_folder(folder / "course", {{.name = "small.md", .contents = "small"},
                                                     {.name = "large.md", .contents = large}}));
  }
  EXPECT_EQ(contents(folder / "page.html"), "the old page");
  EXPECT_THAT(folder.names(), ElementsAre("page.html"));
}

TEST(Files, ADeviceIsWrittenToAsItIs) {
  EXPECT_FALSE(write_file("/dev/null", "gone"));
  const auto full = write_file("/dev/full", "no room");
  ASSERT_TRUE(full);
  EXPECT_THAT(reason(full), HasSubstr("No space left on device"));
  EXPECT_TRUE(std::filesystem::is_character_file("/dev/full"));
}

TEST(Files, SaysWhyAFileCannotBeWritten) {
  const TemporaryFolder folder;
  EXPECT_THAT(reason(write_file(folder / "none" / "page.html", "x")),
              HasSubstr("No such file or directory"));
  EXPECT_THAT(reason(write_file(folder.path(), "x")), HasSubstr("Is a directory"));
  ASSERT_FALSE(write_file(folder / "file", "x"));
  EXPECT_THAT(reason(write_file(folder / "file" / "page.html", "x")), HasSubstr("Not a directory"));
}

TEST(Files, ALinkStaysALink) {
  const TemporaryFolder folder;
  ASSERT_FALSE(write_file(folder / "target", "old"));
  std::filesystem::create_symlink("target", folder / "link");
  EXPECT_FALSE(write_file(folder / "link", "new"));
  EXPECT_TRUE(std::filesystem::is_symlink(folder / "link"));
  EXPECT_EQ(contents(folder / "target"), "new");
}

TEST(Files, NewFilesAndFoldersNeverOverwrite) {
  const TemporaryFolder folder;
  EXPECT_FALSE(write_new_file(folder / "lesson.md", "mine"));
  EXPECT_THAT(reason(write_new_file(folder / "lesson.md", "other")), HasSubstr("already there"));
  EXPECT_EQ(contents(folder / "lesson.md"), "mine");

  EXPECT_FALSE(write_new_folder(folder / "course", {{.name = "a", .contents = "1"}}));
  EXPECT_THAT(reason(write_new_folder(folder / "course", {})), HasSubstr("already there"));
  EXPECT_THAT(reason(write_new_folder(folder / "lesson.md", {})), HasSubstr("already there"));
  std::filesystem::create_symlink("nowhere", folder / "dangling");
  EXPECT_THAT(reason(write_new_folder(folder / "dangling", {})), HasSubstr("already there"));
  EXPECT_TRUE(write_new_file(folder / "dangling", "x"));
  EXPECT_EQ(contents(folder / "course" / "a"), "1");
  EXPECT_EQ(folder.names().size(), 3U);
}

TEST(Files, ReadsUpToTheLimit) {
  const TemporaryFolder folder;
  ASSERT_FALSE(write_file(folder / "file", "12345"));
  EXPECT_EQ(*read_file(folder / "file", 5), "12345");
  EXPECT_THAT(read_file(folder / "file", 4).error().faults.front().reason,
              HasSubstr("larger than 4 bytes"));
  EXPECT_FALSE(read_file(folder.path(), 5).ok());
  EXPECT_FALSE(read_file(folder / "none", 5).ok());
  // Endless, and read no further than needed.
  EXPECT_FALSE(read_file("/dev/zero", 1000).ok());
}

}  // namespace
}  // namespace pointwright::app

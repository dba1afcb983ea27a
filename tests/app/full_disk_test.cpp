#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>

#include "app/templates.hpp"
#include "tests/app/output_of.hpp"
#include "tests/app/temporary_folder.hpp"

/// A disk that is really full: a small file system of its own, in a space that only the test sees.
namespace pointwright::app {
namespace {

using testing::HasSubstr;
using testing::Not;

TEST(FullDisk, IsSaidAndLeavesTheFolderAsItWas) {
  const TemporaryFolder home;
  const std::string disk = (home / "disk").string();
  const std::string lesson = (home / "lesson.md").string();
  std::filesystem::create_directories(disk);
  std::ofstream(lesson) << lesson_template("A lesson");
  const std::string build = std::string(POINTWRIGHT_PROGRAM) + " build " + lesson + " -o " + disk +
                            "/out --size 720p --fps 24 --make ";
  const std::string script =
      "mount -t tmpfs -o size=96k none " + disk + " && echo mounted && " + build + "captions && " +
      build + "stage,clips,stills; echo status $?; ls -A " + disk + " " + disk + "/out";
  std::string told = output_of("unshare --user --map-root-user --mount sh -c '" + script + "'");
  if (told.find("mounted") == std::string::npos)
    GTEST_SKIP() << "no file system of its own: " << told;
  std::replace(told.begin(), told.end(), '\n', ' ');
  EXPECT_THAT(told, HasSubstr("No space left on device"));
  EXPECT_THAT(told, HasSubstr("make room on the disk"));
  EXPECT_THAT(told, HasSubstr("status 2"));
  const std::string left = told.substr(told.find("status 2"));
  EXPECT_THAT(left, HasSubstr("captions")) << "what was there stays";
  EXPECT_THAT(left, Not(HasSubstr("clips")));
  EXPECT_THAT(left, Not(HasSubstr("stage-sheets")));
  EXPECT_THAT(left, Not(HasSubstr(".part")));
}

}  // namespace
}  // namespace pointwright::app

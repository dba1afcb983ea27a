#include "app/claim_memory.hpp"

#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>

#include "app/compile.hpp"
#include "tests/app/temporary_folder.hpp"

namespace pointwright::app {
namespace {

TEST(ClaimMemory, KeepsFromOneRunToTheNext) {
  const TemporaryFolder folder;
  const auto place = folder / "cache";
  {
    ClaimMemory memory(place);
    EXPECT_FALSE(memory.find("a"));
    memory.keep("a", "1 2");
    memory.keep("b", "3");
    memory.keep("odd\tkey", "4");
    memory.save();
  }
  ClaimMemory again(place);
  EXPECT_EQ(again.find("a"), "1 2");
  EXPECT_EQ(again.find("b"), "3");
  EXPECT_FALSE(again.find("odd\tkey"));
  EXPECT_EQ(again.found(), 2);
  EXPECT_EQ(again.added(), 0);
}

TEST(ClaimMemory, ADamagedOrMissingFileIsPassedOver) {
  const TemporaryFolder folder;
  std::ofstream(folder / "searched-claims.txt", std::ios::binary)
      << "no tab\n\n\tvalue without key\ngood\t7\nlast without end\t8";
  ClaimMemory memory(folder.path());
  EXPECT_EQ(memory.find("good"), "7");
  EXPECT_EQ(memory.find("last without end"), "8");
  EXPECT_FALSE(memory.find("no tab"));
  ClaimMemory none{std::filesystem::path{}};
  none.keep("a", "1");
  none.save();
  EXPECT_EQ(none.find("a"), "1");
  ClaimMemory blocked(folder / "searched-claims.txt");  // a file where a folder should be
  blocked.keep("a", "1");
  blocked.save();
}

TEST(ClaimMemory, ASecondCheckSearchesNothing) {
  const TemporaryFolder folder;
  std::ofstream(folder / "one.md") << "---\ntitle: T\n---\n\n```board b\nstart; light to play "
                                      "3-1\n```\n\n```claims\nbest play 8/5 6/5\n```\n";
  const auto place = folder / "cache";
  ClaimMemory first(place);
  const auto proved = compile(folder / "one.md", first, 1);
  ASSERT_TRUE(proved.ok());
  EXPECT_EQ(proved->claims.proved, 1);
  EXPECT_EQ(first.added(), 1);
  first.save();
  ClaimMemory second(place);
  EXPECT_EQ(compile(folder / "one.md", second, 2)->claims.proved, 1);
  EXPECT_EQ(second.added(), 0);
  EXPECT_EQ(second.found(), 1);
}

}  // namespace
}  // namespace pointwright::app

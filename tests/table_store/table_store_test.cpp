#include "table_store/table_store.hpp"

#include <gtest/gtest.h>
#include <sys/resource.h>

#include <csignal>
#include <fstream>
#include <iterator>
#include <vector>

#include "table_store/parallel_host.hpp"

namespace pointwright {
namespace {

namespace fs = std::filesystem;

class TableStore : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ = fs::path(::testing::TempDir()) /
              ("pointwright-" +
               std::string(::testing::UnitTest::GetInstance()->current_test_info()->name()));
    fs::remove_all(folder_);
    fs::create_directories(folder_);
    path_ = folder_ / two_sided_name(3);
  }
  void TearDown() override { fs::remove_all(folder_); }

  [[nodiscard]] std::string contents() const {
    std::ifstream in(path_, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }
  void write(const std::string& bytes) const {
    std::ofstream(path_, std::ios::binary | std::ios::trunc) << bytes;
  }
  [[nodiscard]] std::optional<TableDamage> damage(int checkers = 3) const {
    const auto opened = StoredTwoSided::open(path_, checkers);
    return opened ? std::nullopt : opened.error().damage;
  }
  [[nodiscard]] std::size_t files() const {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder_), {}));
  }

  fs::path folder_;
  fs::path path_;
};

TEST_F(TableStore, KeepsATable) {
  ASSERT_EQ(build_two_sided(path_, 3, {}), "");
  const auto stored = StoredTwoSided::open(path_, 3);
  ASSERT_TRUE(stored.ok());
  const BearoffFamily& family = stored->table().family();
  const BearoffFamily& small = small_races().family();
  for (std::uint32_t a = 1; a < family.size(); ++a) {
    for (std::uint32_t b = 1; b < family.size(); ++b) {
      const CubeValues here = stored->table().values(a, b);
      const CubeValues there =
          small_races().values(small.rank(family.camp(a)), small.rank(family.camp(b)));
      ASSERT_NEAR(here.win, there.win, 1e-6);
      ASSERT_NEAR(here.hold_mine, there.hold_mine, 1e-6);
      ASSERT_NEAR(here.hold_centred, there.hold_centred, 1e-6);
      ASSERT_NEAR(here.theirs, there.theirs, 1e-6);
    }
  }
  EXPECT_EQ(files(), 1U);
}

TEST_F(TableStore, EachKindOfDamageHasItsOwnAnswer) {
  ASSERT_EQ(build_two_sided(path_, 3, {}), "");
  const std::string good = contents();
  const auto with_header = [&](const auto& change) {
    TableHeader header;
    std::memcpy(&header, good.data(), sizeof header);
    change(header);
    seal(header);
    std::string bytes = good;
    std::memcpy(bytes.data(), &header, sizeof header);
    write(bytes);
  };
  EXPECT_EQ(damage(), std::nullopt);
  write("");
  EXPECT_EQ(damage(), TableDamage::too_short);
  write(good.substr(0, 63));
  EXPECT_EQ(damage(), TableDamage::too_short);
  write(std::string(1000, 'x'));
  EXPECT_EQ(damage(), TableDamage::not_a_table);
  for (const std::size_t at : {std::size_t{8}, std::size_t{30}, std::size_t{60}}) {
    std::string bytes = good;
    bytes[at] = static_cast<char>(bytes[at] ^ 1);
    write(bytes);
    EXPECT_EQ(damage(), TableDamage::header_damaged);
  }
  with_header([](TableHeader& h) { h.version = 2; });
  EXPECT_EQ(damage(), TableDamage::other_version);
  with_header([](TableHeader& h) { h.kind = 2; });
  EXPECT_EQ(damage(), TableDamage::other_kind);
  with_header([](TableHeader& h) { h.checkers = 4; });
  EXPECT_EQ(damage(), TableDamage::other_dimensions);
  write(good);
  EXPECT_EQ(damage(4), TableDamage::other_dimensions);
  write(good.substr(0, good.size() - 1));
  EXPECT_EQ(damage(), TableDamage::truncated);
  write(good + '\0');
  EXPECT_EQ(damage(), TableDamage::trailing_bytes);
  for (std::size_t at = 64; at < good.size(); at += 1009) {
    std::string bytes = good;
    bytes[at] = static_cast<char>(bytes[at] ^ 16);
    write(bytes);
    ASSERT_EQ(damage(), TableDamage::body_damaged) << at;
  }
  // Building again mends it.
  ASSERT_EQ(build_two_sided(path_, 3, {}), "");
  EXPECT_EQ(contents(), good);
}

TEST_F(TableStore, MissingFileIsNotDamage) {
  const auto opened = StoredTwoSided::open(path_, 3);
  ASSERT_FALSE(opened.ok());
  EXPECT_FALSE(opened.error().damage.has_value());
  EXPECT_NE(opened.error().reason.find(path_.string()), std::string::npos);
}

TEST_F(TableStore, AnInterruptedBuildLosesNothing) {
  write("what was there before");
  BuildHost host;
  host.progress = [](double done) { return done < 0.3; };
  EXPECT_EQ(build_two_sided(path_, 3, host), build_stopped);
  EXPECT_EQ(contents(), "what was there before");
  EXPECT_EQ(files(), 1U);
}

TEST_F(TableStore, AFullDiskLosesNothingAndSaysSo) {
  // A limit on the size of files stands in for a full disk: the system refuses the space alike.
  write("what was there before");
  ASSERT_NE(std::signal(SIGXFSZ, SIG_IGN), SIG_ERR);
  rlimit before{};
  ASSERT_EQ(getrlimit(RLIMIT_FSIZE, &before), 0);
  const rlimit tight{4096, before.rlim_max};
  ASSERT_EQ(setrlimit(RLIMIT_FSIZE, &tight), 0);
  const std::string problem = build_two_sided(path_, 3, {});
  ASSERT_EQ(setrlimit(RLIMIT_FSIZE, &before), 0);
  EXPECT_NE(problem.find("nothing was changed"), std::string::npos) << problem;
  EXPECT_EQ(contents(), "what was there before");
  EXPECT_EQ(files(), 1U);
}

TEST_F(TableStore, AFolderThatIsNotThereSaysSo) {
  const std::string problem = build_two_sided(folder_ / "nowhere" / "x.table", 3, {});
  EXPECT_NE(problem.find("No such file"), std::string::npos) << problem;
}

TEST_F(TableStore, ThreadsMakeTheSameFile) {
  ASSERT_EQ(build_two_sided(path_, 3, {}), "");
  const std::string serial = contents();
  ASSERT_EQ(build_two_sided(path_, 3, parallel_host(3)), "");
  EXPECT_EQ(contents(), serial);
}

TEST(TableChecksum, DoesNotDependOnThePieces) {
  std::vector<std::byte> bytes(1000);
  for (std::size_t i = 0; i < bytes.size(); ++i) bytes[i] = static_cast<std::byte>(i * 7);
  const std::span<const std::byte> all(bytes);
  for (const std::size_t cut : {1U, 31U, 32U, 33U, 500U, 999U}) {
    TableChecksum pieces;
    pieces.add(all.first(cut));
    pieces.add(all.subspan(cut));
    EXPECT_EQ(pieces.value(), table_checksum(all));
  }
  // Lengths count: zeros at the end are not the same as nothing.
  const std::vector<std::byte> zeros(40);
  EXPECT_NE(table_checksum(std::span(zeros).first(39)), table_checksum(zeros));
}

}  // namespace
}  // namespace pointwright

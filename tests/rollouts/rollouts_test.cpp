#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "judge/shipped.hpp"
#include "rollouts/rollout_file.hpp"
#include "rollouts/rollout_job.hpp"

namespace pointwright {
namespace {

RolloutJob small_job(std::uint32_t parts = 1) {
  RolloutJob job;
  job.settings.truncate_after = 2;
  job.settings.adjust_luck = false;
  job.starts = {{starting_board(), Side::light}, {starting_board(), Side::dark}};
  job.trials = 20 * judge::trials_per_block;
  job.parts = parts;
  return job;
}

RolloutProgress run_all(const RolloutJob& job, std::uint32_t part, unsigned threads) {
  RolloutProgress progress(job);
  EXPECT_TRUE(run(job, part, judge::shipped_evaluator(), {.threads = threads}, progress));
  return progress;
}

TEST(RolloutJob, GivesTheSameNumbersOnAnyNumberOfThreads) {
  const RolloutProgress one = run_all(small_job(), 0, 1);
  EXPECT_EQ(one.tally.trials, small_job().trials);
  EXPECT_EQ(run_all(small_job(), 0, 3), one);
}

TEST(RolloutJob, PartsMergeToTheWholeToTheLastBit) {
  const judge::Tally whole = run_all(small_job(), 0, 1).tally;
  constexpr std::uint32_t parts = 3;
  const RolloutJob job = small_job(parts);
  RolloutProgress merged(job);
  for (const std::uint32_t part : {2U, 0U, 1U}) {
    EXPECT_FALSE(merged.complete(job));
    EXPECT_EQ(merge(merged, run_all(job, part, 1)), "");
  }
  EXPECT_TRUE(merged.complete(job));
  EXPECT_EQ(merged.tally, whole);
  EXPECT_NE(merge(merged, run_all(job, 1, 1)).find("counted twice"), std::string::npos);
  EXPECT_NE(merge(merged, run_all(small_job(), 0, 1)).find("different"), std::string::npos);
  EXPECT_EQ(merged.tally, whole);
}

TEST(RolloutJob, GoesOnWhereItWasInterrupted) {
  const RolloutJob job = small_job();
  RolloutProgress progress(job);
  int heard = 0;
  RolloutRun once;
  once.heard = [&](const RolloutProgress&) { return ++heard < 1; };
  EXPECT_FALSE(run(job, 0, judge::shipped_evaluator(), once, progress));
  EXPECT_GT(progress.tally.trials, 0U);
  EXPECT_LT(progress.tally.trials, job.trials);
  EXPECT_TRUE(run(job, 0, judge::shipped_evaluator(), {}, progress));
  EXPECT_EQ(progress, run_all(job, 0, 1));
}

TEST(RolloutJob, HasAFingerprintOfAllThatMatters) {
  const std::uint64_t usual = fingerprint(small_job());
  RolloutJob job = small_job();
  job.settings.seed = 2;
  EXPECT_NE(fingerprint(job), usual);
  job = small_job();
  job.trials += judge::trials_per_block;
  EXPECT_NE(fingerprint(job), usual);
  job = small_job();
  job.starts.pop_back();
  EXPECT_NE(fingerprint(job), usual);
  job = small_job();
  job.settings.valuation.win_gammon = 0;
  EXPECT_NE(fingerprint(job), usual);
  EXPECT_NE(fingerprint(small_job(2)), usual);
  EXPECT_EQ(fingerprint(small_job()), usual);
}

class RolloutFile : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ = std::filesystem::temp_directory_path() /
              ("pointwright-rollouts-" +
               std::to_string(::testing::UnitTest::GetInstance()->random_seed()) + "-" +
               ::testing::UnitTest::GetInstance()->current_test_info()->name());
    std::filesystem::create_directories(folder_);
    path_ = folder_ / "state";
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  [[nodiscard]] std::string bytes() const {
    std::ifstream in(path_, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  }
  [[nodiscard]] std::string_view id_of(const std::string& bytes) const {
    std::ofstream(path_, std::ios::binary) << bytes;
    const auto read = load_rollout(path_);
    return read.ok() ? std::string_view("fine") : read.error().id;
  }

  std::filesystem::path folder_;
  std::filesystem::path path_;
};

TEST_F(RolloutFile, ComesBackAsItWas) {
  const RolloutProgress progress = run_all(small_job(3), 1, 1);
  ASSERT_EQ(save(path_, progress), "");
  const auto read = load_rollout(path_);
  ASSERT_TRUE(read.ok()) << read.error().reason;
  EXPECT_EQ(*read, progress);
}

TEST_F(RolloutFile, EachDamageHasItsName) {
  EXPECT_EQ(load_rollout(path_).error().id, "cannot-read");
  ASSERT_EQ(save(path_, RolloutProgress(small_job())), "");
  const std::string whole = bytes();
  EXPECT_EQ(id_of(whole), "fine");
  EXPECT_EQ(id_of(""), "not-a-rollout");
  EXPECT_EQ(id_of("x" + whole.substr(1)), "not-a-rollout");
  std::string other = whole;
  other[8] = 9;
  EXPECT_EQ(id_of(other), "rollout-version");
  EXPECT_EQ(id_of(whole + "x"), "rollout-size");
  EXPECT_EQ(id_of(whole.substr(0, whole.size() - 8)), "rollout-size");
  for (std::size_t at = 32; at < whole.size(); at += 5) {
    other = whole;
    other[at] = static_cast<char>(other[at] ^ 1);
    ASSERT_EQ(id_of(other), "rollout-damaged") << at;
  }
}

TEST_F(RolloutFile, CannotBeWrittenWhereThereIsNoFolder) {
  EXPECT_NE(save(folder_ / "none" / "state", RolloutProgress(small_job())).find("cannot write"),
            std::string::npos);
}

}  // namespace
}  // namespace pointwright

#include "app/make/clips.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <csignal>
#include <cstdio>
#include <thread>

#include "app/interrupt.hpp"
#include "app/json.hpp"
#include "tests/app/temporary_folder.hpp"
#include "tests/film/sample_film.hpp"

/// Moving pictures, as ffprobe and ffmpeg understand them.
namespace pointwright::app {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

std::string output_of(const std::string& command) {
  std::string out;
  std::FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  if (pipe == nullptr) return out;
  char buffer[4096];
  while (const std::size_t got = std::fread(buffer, 1, sizeof buffer, pipe))
    out.append(buffer, got);
  pclose(pipe);
  return out;
}

Json stream_of(const std::filesystem::path& file) {
  const Json all = Json::parse(
      output_of("ffprobe -v error -count_frames -show_streams -of json '" + file.string() + "'"),
      nullptr, false);
  return all.is_object() ? all["streams"][0] : Json{};
}

/// A shot of two seconds in which a checker moves.
class Sample {
 public:
  Sample() : course_(film::spoken_course({{"A move.", 0.2}})) {
    Step& step = course_.chapters[0].parts[0].scene->steps[0];
    step.kind = Step::Kind::move;
    step.action = "6/2";
    step.position = "light 6x1 2x1; dark 5x2; light to play 6-4";
    step.arrows = {{Side::light, 6, 2, false}};
    shots_ = *film::shots_of(course_);
  }
  [[nodiscard]] const film::Shot& shot() const { return shots_[0]; }

 private:
  Storyboard course_;
  std::vector<film::Shot> shots_;
};

constexpr int width = 256;
constexpr int height = 144;

std::optional<Failure> write(const Sample& sample, const std::filesystem::path& file,
                             Footage footage, int fps, const std::string& program = "ffmpeg") {
  return write_clip(
      sample.shot(), file, {.width = width, .height = height, .paper = !has_alpha(footage)},
      {.footage = footage, .width = width, .height = height, .fps = fps, .program = program});
}

TEST(Clips, AreWhatTheySayTheyAre) {
  const TemporaryFolder folder;
  const Sample sample;
  struct Expected {
    Footage footage;
    const char* codec;
    const char* pixels;
  };
  for (const Expected& expected : {Expected{Footage::h264, "h264", "yuv420p"},
                                   {Footage::vp9, "vp9", "yuv420p"},
                                   {Footage::prores, "prores", "yuva444p12le"},
                                   {Footage::gif, "gif", "bgra"}}) {
    const auto file = folder / ("clip" + std::string{file_ending(expected.footage)});
    const auto wrong = write(sample, file, expected.footage, 25);
    ASSERT_FALSE(wrong) << wrong->faults.front().reason;
    Json stream = stream_of(file);  // not const: what is missing is null
    EXPECT_EQ(stream["codec_name"], expected.codec);
    EXPECT_EQ(stream["pix_fmt"], expected.pixels);
    EXPECT_EQ(stream["width"], width);
    EXPECT_EQ(stream["height"], height);
    EXPECT_EQ(stream["nb_read_frames"], std::to_string(frame_count(sample.shot(), 25)));
    EXPECT_EQ(stream["avg_frame_rate"], "25/1");
    if (expected.footage == Footage::gif) continue;
    for (const char* tag : {"color_space", "color_primaries", "color_transfer"}) {
      EXPECT_EQ(stream[tag], "bt709") << expected.codec << " " << tag;
    }
  }
}

TEST(Clips, OverlaysCanBeSeenThroughAroundTheBoard) {
  const TemporaryFolder folder;
  const Sample sample;
  for (const Footage footage : {Footage::vp9, Footage::prores}) {
    const auto file = folder / ("clip" + std::string{file_ending(footage)});
    ASSERT_FALSE(write(sample, file, footage, 24));
    const std::string decoder = footage == Footage::vp9 ? "-c:v libvpx-vp9 " : "";
    // The first frame as pixels of red, green, blue, alpha.
    const auto raw = folder / "frame.rgba";
    EXPECT_EQ(output_of("ffmpeg -v error -y " + decoder + "-i '" + file.string() +
                        "' -frames:v 1 -f rawvideo -pix_fmt rgba '" + raw.string() + "'"),
              "");
    const std::string pixels = contents(raw);
    ASSERT_EQ(pixels.size(), std::size_t{width} * height * 4);
    const auto alpha = [&](int x, int y) {
      return static_cast<unsigned char>(pixels[static_cast<std::size_t>((y * width + x) * 4 + 3)]);
    };
    EXPECT_LT(alpha(2, 2), 8) << "a corner";
    EXPECT_GT(alpha(width / 2, height / 2), 247) << "the middle of the board";
  }
}

TEST(Clips, EqualFramesGiveEqualFiles) {
  const TemporaryFolder folder;
  const Sample sample;
  ASSERT_FALSE(write(sample, folder / "a.mp4", Footage::h264, 24));
  ASSERT_FALSE(write(sample, folder / "b.mp4", Footage::h264, 24));
  EXPECT_EQ(contents(folder / "a.mp4"), contents(folder / "b.mp4"));
}

TEST(Clips, AMissingProgramIsSaid) {
  const TemporaryFolder folder;
  const auto wrong = write(Sample{}, folder / "a.mp4", Footage::h264, 24, "no-such-ffmpeg");
  ASSERT_TRUE(wrong);
  EXPECT_EQ(wrong->faults.front().id, "missing-program");
  EXPECT_THAT(folder.names(), IsEmpty());
}

TEST(Clips, AProgramThatFailsLeavesNothingBehind) {
  const TemporaryFolder folder;
  const InterruptWatch watch;  // writing to a program that has gone is no signal
  // /dev/full takes nothing: a full disk.
  const auto full = write(Sample{}, "/dev/full/a.mp4", Footage::h264, 24);
  ASSERT_TRUE(full);
  EXPECT_EQ(full->faults.front().id, "cannot-encode");
  const auto early = write(Sample{}, folder / "a.mp4", Footage::h264, 24, "false");
  ASSERT_TRUE(early);
  EXPECT_EQ(early->faults.front().id, "cannot-encode");
  EXPECT_THAT(folder.names(), IsEmpty());
}

TEST(Clips, AnInterruptLeavesNothingBehind) {
  const TemporaryFolder folder;
  const InterruptWatch watch;
  std::raise(SIGTERM);
  const auto wrong = write(Sample{}, folder / "a.mp4", Footage::h264, 24);
  ASSERT_TRUE(wrong);
  EXPECT_EQ(wrong->faults.front().id, "interrupted");
  EXPECT_THAT(folder.names(), IsEmpty());
}

}  // namespace
}  // namespace pointwright::app

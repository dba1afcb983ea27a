#include "app/make/clips.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <csignal>
#include <cstdlib>
#include <fstream>

#include "app/interrupt.hpp"
#include "app/json.hpp"
#include "film/motion.hpp"
#include "press/frames.hpp"
#include "tests/app/output_of.hpp"
#include "tests/app/temporary_folder.hpp"
#include "tests/film/sample_film.hpp"

/// Moving pictures, as ffprobe and ffmpeg understand them.
namespace pointwright::app {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

/// What ffprobe says of the first stream, with the duration of the whole file.
Json stream_of(const std::filesystem::path& file) {
  Json all = Json::parse(output_of("ffprobe -v error -count_frames -show_streams -show_format -of "
                                   "json '" +
                                   file.string() + "'"),
                         nullptr, false);
  if (!all.is_object()) return {};
  Json stream = all["streams"][0];
  stream["file_duration"] = all["format"]["duration"];
  return stream;
}

/// The duration that ffprobe reads from the file, in seconds.
double seconds_of(Json& stream) {
  return std::stod(stream["file_duration"].get<std::string>());
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
    EXPECT_NEAR(seconds_of(stream), static_cast<double>(frame_count(sample.shot(), 25)) / 25, 0.02);
    if (expected.footage == Footage::gif) continue;
    EXPECT_EQ(stream["color_range"], "tv");
    // The pictures of VP9 and their alpha are two streams in one; this tag says so.
    if (expected.footage == Footage::vp9) EXPECT_EQ(stream["tags"]["ALPHA_MODE"], "1");
    for (const char* tag : {"color_space", "color_primaries", "color_transfer"}) {
      EXPECT_EQ(stream[tag], "bt709") << expected.codec << " " << tag;
    }
  }
}

TEST(Clips, HaveTheFramesOfTheRate) {
  const TemporaryFolder folder;
  const Sample sample;
  for (const int fps : {30, 60}) {
    const auto file = folder / "clip.mp4";
    ASSERT_FALSE(write(sample, file, Footage::h264, fps));
    Json stream = stream_of(file);
    EXPECT_EQ(stream["r_frame_rate"], std::to_string(fps) + "/1");
    EXPECT_EQ(stream["nb_read_frames"], std::to_string(frame_count(sample.shot(), fps)));
    const double wanted = static_cast<double>(sample.shot().length.count()) / 1000;
    EXPECT_NEAR(seconds_of(stream), wanted, 0.5 / fps + 0.001) << fps;
  }
}

/// The pixels of a clip, frame after frame, of red, green, blue and alpha.
std::string pixels_of(const std::filesystem::path& file, Footage footage) {
  const std::filesystem::path raw = file.string() + ".rgba";
  const std::string decoder = footage == Footage::vp9 ? "-c:v libvpx-vp9 " : "";
  EXPECT_EQ(output_of("ffmpeg -v error -y " + decoder + "-i '" + file.string() +
                      "' -f rawvideo -pix_fmt rgba '" + raw.string() + "'"),
            "");
  return contents(raw);
}

TEST(Clips, EveryFrameIsTheOneThatWasDrawn) {
  const TemporaryFolder folder;
  const Sample sample;
  constexpr int fps = 24;
  for (const Footage footage : {Footage::h264, Footage::vp9, Footage::prores}) {
    const auto file = folder / ("clip" + std::string{file_ending(footage)});
    ASSERT_FALSE(write(sample, file, footage, fps));
    const std::string decoded = pixels_of(file, footage);
    constexpr std::size_t size = std::size_t{width} * height * 4;
    const long count = frame_count(sample.shot(), fps);
    ASSERT_EQ(decoded.size(), size * static_cast<std::size_t>(count));
    const film::Motion motion(sample.shot());
    press::FramePainter painter({.width = width, .height = height, .paper = !has_alpha(footage)});
    painter.begin(motion);
    for (long i = 0; i < count; ++i) {
      const auto drawn = painter.frame(film::Milliseconds{i * 1000 / fps});
      const auto* seen = reinterpret_cast<const unsigned char*>(decoded.data()) +
                         static_cast<std::size_t>(i) * size;
      double colour = 0;
      double alpha = 0;
      for (std::size_t at = 0; at < size; at += 4) {
        // Ours is blue, green, red, multiplied by alpha; theirs red, green, blue.
        for (std::size_t c = 0; c < 3; ++c) {
          colour +=
              std::abs(static_cast<int>(drawn[at + c]) - seen[at + 2 - c] * seen[at + 3] / 255);
        }
        alpha += std::abs(static_cast<int>(drawn[at + 3]) - seen[at + 3]);
      }
      // Colour at half the size, and the loss of the encoders, blur edges; so small a picture is
      // full of them.
      EXPECT_LT(colour / (size / 4 * 3), 6.0) << file << " frame " << i;
      EXPECT_LT(alpha / (size / 4), 1.5) << file << " frame " << i;
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

TEST(Clips, AProgramThatComplainsHasFailedWhateverItsStatus) {
  const TemporaryFolder folder;
  const auto program = folder / "complains";
  std::ofstream(program) << "#!/bin/sh\ncat > /dev/null\n"
                            "echo 'Error writing trailer: No space left on device' >&2\n";
  std::filesystem::permissions(program, std::filesystem::perms::owner_all);
  const auto wrong = write(Sample{}, folder / "a.mp4", Footage::h264, 24, program.string());
  ASSERT_TRUE(wrong);
  EXPECT_EQ(wrong->faults.front().id, "cannot-encode");
  EXPECT_THAT(wrong->faults.front().fix, HasSubstr("make room on the disk"));
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

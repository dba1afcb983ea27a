// How fast shots are drawn and encoded, beside encoding alone: blank frames of the same size.
// usage: bench_clips COURSE.json [SECONDS]   a storyboard, as `build --storyboard` writes it
// Frames a second are by wall-clock time, all in one run. Milliseconds a frame are processor time,
// the drawing's and the encoder's apart: they say the same on a machine that has other things to
// do.

#include "app/make/clips.hpp"

#include <fmt/format.h>
#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <vector>

#include "film/motion.hpp"
#include "storyboard/json.hpp"

namespace {

using namespace pointwright;

constexpr int fps = 30;

press::FrameOptions frame_options(app::Footage footage) {
  return {.width = 1920, .height = 1080, .paper = !app::has_alpha(footage)};
}

/// The frames of shots, one after another, as many as asked for.
class Reel {
 public:
  Reel(const std::vector<film::Shot>& shots, const press::FrameOptions& options)
      : shots_(shots), painter_(options) {
    for (const film::Shot& shot : shots_) motions_.emplace_back(shot);
  }
  std::span<const std::byte> next() {
    if (frame_ == 0) painter_.begin(motions_[shot_]);
    const auto pixels = painter_.frame(film::Milliseconds{frame_ * 1000 / fps});
    if (++frame_ >= app::frame_count(shots_[shot_], fps)) {
      frame_ = 0;
      shot_ = (shot_ + 1) % shots_.size();
    }
    return pixels;
  }

 private:
  const std::vector<film::Shot>& shots_;
  press::FramePainter painter_;
  std::vector<film::Motion> motions_;
  std::size_t shot_ = 0;
  long frame_ = 0;
};

/// Processor time so far in milliseconds: RUSAGE_SELF, or RUSAGE_CHILDREN that have ended.
double processor_time(int who) {
  rusage usage{};
  getrusage(who, &usage);
  const auto in_ms = [](const timeval& time) {
    return static_cast<double>(time.tv_sec) * 1000 + static_cast<double>(time.tv_usec) / 1000;
  };
  return in_ms(usage.ru_utime) + in_ms(usage.ru_stime);
}

/// The most memory that this process has had, in MiB.
double most_memory() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024;
}

struct Cost {
  double frames_a_second = 0;
  double ours = 0;     ///< milliseconds a frame in this process
  double encoder = 0;  ///< and in the encoder's
};

template <class Work>
Cost cost_of(long frames, const Work& work) {
  const double ours = processor_time(RUSAGE_SELF);
  const double encoder = processor_time(RUSAGE_CHILDREN);
  const auto start = std::chrono::steady_clock::now();
  work();
  const std::chrono::duration<double> time = std::chrono::steady_clock::now() - start;
  const auto count = static_cast<double>(frames);
  return {.frames_a_second = count / time.count(),
          .ours = (processor_time(RUSAGE_SELF) - ours) / count,
          .encoder = (processor_time(RUSAGE_CHILDREN) - encoder) / count};
}

template <class Next>
void encode(app::Footage footage, long frames, const Next& next) {
  const auto file = std::filesystem::temp_directory_path() /
                    ("pointwright-bench" + std::string{app::file_ending(footage)});
  auto encoder = app::Encoder::start(file, {.footage = footage, .fps = fps});
  if (!encoder.ok()) std::exit(2);
  for (long i = 0; i < frames; ++i) {
    if (encoder.value()->add(next())) std::exit(2);
  }
  if (encoder.value()->finish()) std::exit(2);
  std::filesystem::remove(file);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 2) {
    fmt::print(stderr, "usage: bench_clips COURSE.json [SECONDS]\n");
    return 2;
  }
  std::ifstream file(argv[1], std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  const auto course = storyboard_from_json(text);
  if (!course.ok()) return 2;
  const auto shots = film::shots_of(*course);
  if (!shots.ok() || shots->empty()) return 2;
  const long seconds = argc > 2 ? std::atol(argv[2]) : 8;
  const long frames = seconds * fps;
  {
    // The whole course is drawn, so that memory can be seen to stay as it is.
    long all = 0;
    for (const film::Shot& shot : *shots) all += app::frame_count(shot, fps);
    Reel reel(*shots, frame_options(app::Footage::h264));
    for (long i = 0; i < frames; ++i) reel.next();
    const double at_first = most_memory();
    const Cost drawing = cost_of(all, [&] {
      for (long i = 0; i < all; ++i) reel.next();
    });
    fmt::print("drawing alone, {} frames of 1920x1080: {:.0f} a second, {:.2f} ms a frame\n", all,
               drawing.frames_a_second, drawing.ours);
    const double after_all = most_memory();
    for (long i = 0; i < all; ++i) reel.next();
    fmt::print(
        "memory after {} frames {:.1f} MiB, after all {:.1f} MiB, and once more {:.1f} MiB\n",
        frames, at_first, after_all, most_memory());
  }
  fmt::print("{} frames of each format\n{:15} {:>22}   {}\n", frames, "", "blank: a second, ms",
             "the course: a second, ms of encoder and of drawing");
  for (const auto& [footage, name] : {std::pair{app::Footage::h264, "H.264"},
                                      {app::Footage::vp9, "VP9 with alpha"},
                                      {app::Footage::prores, "ProRes 4444"},
                                      {app::Footage::gif, "GIF"}}) {
    const std::vector<std::byte> blank(std::size_t{1920} * 1080 * 4);
    const Cost alone = cost_of(frames, [&] {
      encode(footage, frames, [&] { return std::span<const std::byte>(blank); });
    });
    Reel reel(*shots, frame_options(footage));
    const Cost both =
        cost_of(frames, [&] { encode(footage, frames, [&] { return reel.next(); }); });
    // Sending the frames costs the same in both runs and is no drawing.
    fmt::print("{:15} {:14.1f} {:7.1f}   {:14.1f} {:7.1f} {:7.2f}\n", name, alone.frames_a_second,
               alone.encoder, both.frames_a_second, both.encoder,
               std::max(0.0, both.ours - alone.ours));
    std::fflush(stdout);
  }
  return 0;
}

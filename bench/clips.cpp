// How fast shots are drawn and encoded, beside encoding alone: blank frames of the same size.
// usage: bench_clips COURSE.json [SECONDS]   a storyboard, as `build --storyboard` writes it
// Every number is frames by wall-clock time, all in one run.

#include "app/make/clips.hpp"

#include <fmt/format.h>

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

template <class Work>
double frames_a_second(long frames, const Work& work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  const std::chrono::duration<double> time = std::chrono::steady_clock::now() - start;
  return static_cast<double>(frames) / time.count();
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
    Reel reel(*shots, frame_options(app::Footage::h264));
    const double fast = frames_a_second(frames, [&] {
      for (long i = 0; i < frames; ++i) reel.next();
    });
    fmt::print("{} frames of 1920x1080; drawing alone {:.0f} a second\n", frames, fast);
  }
  for (const auto& [footage, name] : {std::pair{app::Footage::h264, "H.264"},
                                      {app::Footage::vp9, "VP9 with alpha"},
                                      {app::Footage::prores, "ProRes 4444"},
                                      {app::Footage::gif, "GIF"}}) {
    const std::vector<std::byte> blank(std::size_t{1920} * 1080 * 4);
    const double alone = frames_a_second(frames, [&] {
      encode(footage, frames, [&] { return std::span<const std::byte>(blank); });
    });
    Reel reel(*shots, frame_options(footage));
    const double both =
        frames_a_second(frames, [&] { encode(footage, frames, [&] { return reel.next(); }); });
    fmt::print("{:15} blank frames {:6.1f} a second; the course {:6.1f} a second\n", name, alone,
               both);
    std::fflush(stdout);
  }
  return 0;
}

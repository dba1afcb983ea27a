#include "press/frames.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <vector>

#include "tests/page/sample_course.hpp"

namespace pointwright::press {
namespace {

using film::Milliseconds;

std::vector<std::byte> copy(std::span<const std::byte> pixels) {
  return {pixels.begin(), pixels.end()};
}

TEST(Frames, PaintingWhatHasChangedGivesTheSameBytesAsPaintingAll) {
  const Storyboard course = sample_course();
  const auto shots = film::shots_of(course);
  int compared = 0;
  for (const bool paper : {true, false}) {
    const FrameOptions options{.width = 320, .height = 180, .paper = paper};
    FramePainter in_passing(options);
    FramePainter whole(options);
    for (const film::Shot& shot : *shots) {
      const film::Motion motion(shot);
      in_passing.begin(motion);
      whole.begin(motion);
      for (Milliseconds time{0}; time < shot.length; time += Milliseconds{130}) {
        const auto fast = copy(in_passing.frame(time));
        whole.forget();
        const auto slow = copy(whole.frame(time));
        ASSERT_EQ(fast, slow) << shot.id << " at " << time.count();
        ++compared;
      }
    }
  }
  EXPECT_GT(compared, 100);
}

TEST(Frames, FitEveryAspectWithinTheMargins) {
  const Storyboard course = sample_course();
  const auto shots = film::shots_of(course);
  const film::Motion motion(shots->front());
  for (const auto& [width, height] : {std::pair{320, 180}, {180, 320}, {200, 200}}) {
    FramePainter painter({.width = width, .height = height, .paper = false});
    painter.begin(motion);
    const auto pixels = painter.frame(Milliseconds{0});
    ASSERT_EQ(pixels.size(), static_cast<std::size_t>(width * height * 4));
    const int margin_x = width / 20 - 1;
    const int margin_y = height / 20 - 1;
    bool inked = false;
    for (int y = 0; y < height; ++y) {
      for (int x = 0; x < width; ++x) {
        const auto alpha = pixels[static_cast<std::size_t>((y * width + x) * 4 + 3)];
        const bool outside =
            x < margin_x || y < margin_y || x >= width - margin_x || y >= height - margin_y;
        if (outside) {
          ASSERT_EQ(alpha, std::byte{0}) << x << "," << y;
        }
        inked = inked || alpha == std::byte{255};
      }
    }
    EXPECT_TRUE(inked);
  }
}

}  // namespace
}  // namespace pointwright::press

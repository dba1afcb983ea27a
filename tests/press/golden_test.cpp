#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>

#include "press/cairo.hpp"
#include "press/frames.hpp"
#include "storyboard/json.hpp"
#include "tests/page/sample_course.hpp"

/// Frames beside pictures that somebody has looked at, in tests/press/golden. To make them anew,
/// run with POINTWRIGHT_WRITE_GOLDEN=1, and look at them.
namespace pointwright::press {
namespace {

namespace fs = std::filesystem;
using film::Milliseconds;

constexpr FrameOptions small{.width = 480, .height = 270};

/// Pixels of blue, green, red and alpha.
struct Picture {
  int width = 0;
  int height = 0;
  std::vector<unsigned char> pixels;
};

Picture read_png(const fs::path& file) {
  const SurfaceOwner surface(cairo_image_surface_create_from_png(file.c_str()));
  if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) return {};
  // What has no alpha is read into another form: paint it into ours.
  const int width = cairo_image_surface_get_width(surface.get());
  const int height = cairo_image_surface_get_height(surface.get());
  const SurfaceOwner ours(cairo_image_surface_create(CAIRO_FORMAT_ARGB32, width, height));
  const ContextOwner context(cairo_create(ours.get()));
  cairo_set_source_surface(context.get(), surface.get(), 0, 0);
  cairo_paint(context.get());
  cairo_surface_flush(ours.get());
  const unsigned char* data = cairo_image_surface_get_data(ours.get());
  const auto size = static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 4;
  return {width, height, {data, data + size}};
}

/// How far two pictures of one size are apart.
struct Distance {
  double mean = 0;  ///< of a channel, of 255
  double far = 0;   ///< share of the channels that differ by more than 48
};

Distance distance(const Picture& a, const Picture& b) {
  Distance result;
  constexpr int much = 48;
  for (std::size_t i = 0; i < a.pixels.size(); ++i) {
    const int apart = std::abs(int{a.pixels[i]} - int{b.pixels[i]});
    result.mean += apart;
    result.far += apart > much ? 1 : 0;
  }
  result.mean /= static_cast<double>(a.pixels.size());
  result.far /= static_cast<double>(a.pixels.size());
  return result;
}

// Another release of Cairo or of the typeface may move edges by part of a pixel. A checker that is
// out of place changes more: see the test below.
constexpr double most_mean = 0.5;
constexpr double most_far = 0.0008;

/// A moment of each kind of step, in the middle of its motion.
struct MomentOf {
  std::string name;
  const film::Shot* shot = nullptr;
  Milliseconds time{};
};

std::vector<MomentOf> moments(const std::vector<film::Shot>& shots) {
  static const std::map<Step::Kind, std::string> names{
      {Step::Kind::say, "say"},   {Step::Kind::attempt, "attempt"}, {Step::Kind::move, "move"},
      {Step::Kind::roll, "roll"}, {Step::Kind::offer, "offer"},     {Step::Kind::take, "take"}};
  std::map<std::string, MomentOf> found;
  for (const film::Shot& shot : shots) {
    for (const film::Beat& beat : shot.beats) {
      const auto name = names.find(beat.step->kind);
      if (name == names.end()) continue;
      const Milliseconds middle = beat.motion.count() > 0 ? beat.motion / 3 : beat.length / 2;
      found.try_emplace(name->second, MomentOf{name->second, &shot, beat.begin + middle});
    }
  }
  std::vector<MomentOf> all;
  for (auto& [name, moment] : found) all.push_back(moment);
  all.push_back({"opening", &shots.front(), Milliseconds{0}});
  return all;
}

TEST(GoldenFrames, LookAsTheyDidWhenSomebodyLooked) {
  const Storyboard course = sample_course();
  const auto shots = film::shots_of(course);
  const fs::path golden = fs::path(POINTWRIGHT_SOURCE_DIR) / "tests/press/golden";
  // Tests run on one thread when they read this.
  const bool anew = std::getenv("POINTWRIGHT_WRITE_GOLDEN") != nullptr;  // NOLINT
  int compared = 0;
  for (const MomentOf& moment : moments(*shots)) {
    const film::Motion motion(*moment.shot);
    const auto png = frame_png(motion, moment.time, small);
    ASSERT_TRUE(png.ok());
    const fs::path now = fs::path(POINTWRIGHT_BINARY_DIR) / ("frame-" + moment.name + ".png");
    const fs::path then = golden / (moment.name + ".png");
    std::ofstream(anew ? then : now, std::ios::binary) << *png;
    if (anew) continue;
    const Picture picture = read_png(now);
    const Picture expected = read_png(then);
    ASSERT_EQ(picture.width, expected.width) << then;
    ASSERT_EQ(picture.height, expected.height) << then;
    const Distance apart = distance(picture, expected);
    EXPECT_LE(apart.mean, most_mean) << now << " is not " << then;
    EXPECT_LE(apart.far, most_far) << now << " is not " << then;
    if (!HasFailure()) fs::remove(now);
    ++compared;
  }
  if (!anew) EXPECT_EQ(compared, 7);
}

TEST(GoldenFrames, ACheckerOutOfPlaceIsNoticed) {
  const Storyboard course = sample_course();
  const auto shots = film::shots_of(course);
  std::vector<Picture> pictures;
  for (const MomentOf& moment : moments(*shots)) {
    const film::Motion motion(*moment.shot);
    FramePainter painter(small);
    painter.begin(motion);
    for (const Milliseconds later : {Milliseconds{0}, Milliseconds{120}}) {
      const auto pixels = painter.frame(moment.time + later);
      const auto* data = reinterpret_cast<const unsigned char*>(pixels.data());
      pictures.push_back({small.width, small.height, {data, data + pixels.size()}});
    }
    if (moment.name == "move") {
      const Distance apart = distance(pictures[pictures.size() - 2], pictures.back());
      EXPECT_GT(apart.far, most_far) << "a checker an eighth of a second farther on its way";
    }
  }
}

TEST(Frames, AreTheSameWhateverWasDrawnBefore) {
  const Storyboard course = sample_course();
  const auto again = storyboard_from_json(to_json(course));
  ASSERT_TRUE(again.ok());
  const auto shots = film::shots_of(course);
  const auto other_shots = film::shots_of(*again);
  FramePainter forwards(small);
  FramePainter backwards(small);
  for (std::size_t at = 0; at < shots->size(); ++at) {
    const film::Motion motion((*shots)[at]);
    const film::Motion other((*other_shots)[at]);
    std::vector<std::vector<std::byte>> frames;
    constexpr Milliseconds step{270};
    forwards.begin(motion);
    for (Milliseconds time{0}; time < (*shots)[at].length; time += step) {
      const auto pixels = forwards.frame(time);
      frames.emplace_back(pixels.begin(), pixels.end());
    }
    backwards.begin(other);
    for (std::size_t i = frames.size(); i-- > 0;) {
      const auto pixels = backwards.frame(step * static_cast<int>(i));
      ASSERT_TRUE(std::equal(pixels.begin(), pixels.end(), frames[i].begin()))
          << (*shots)[at].id << " frame " << i;
    }
  }
}

}  // namespace
}  // namespace pointwright::press

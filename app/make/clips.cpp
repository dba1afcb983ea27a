#include "app/make/clips.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>

#include "app/files.hpp"
#include "app/make/kinds.hpp"
#include "film/captions.hpp"
#include "film/motion.hpp"

/// The products in motion.
namespace pointwright::app {
namespace {

/// Goes into every recipe: raised when the way in which frames are drawn changes.
constexpr int drawing_version = 1;

/// A loop for a chat is small, and has fewer frames.
constexpr int loop_short_side = 480;
constexpr int loop_fps = 15;

struct Clip {
  press::FrameOptions frames;
  EncoderOptions encoder;
};

Clip clip_of(const MakeOptions& options, Footage footage) {
  ClipOptions size = options.clips;
  if (footage == Footage::gif) {
    size.short_side = loop_short_side;
    size.fps = loop_fps;
  }
  Clip clip;
  clip.frames.width = size.width();
  clip.frames.height = size.height();
  clip.frames.paper = !has_alpha(footage);
  clip.encoder.footage = footage;
  clip.encoder.width = size.width();
  clip.encoder.height = size.height();
  clip.encoder.fps = size.fps;
  return clip;
}

std::string drawing_recipe(const Clip& clip) {
  return fmt::format("drawing {} paper {} {}x{}\n", drawing_version, clip.frames.paper,
                     clip.frames.width, clip.frames.height);
}

std::string recipe_of(const film::Shot& shot, const Clip& clip) {
  std::string recipe = drawing_recipe(clip);
  for (const std::string& word : encoder_arguments("", clip.encoder)) recipe += word + " ";
  return recipe + "\n" + film::picture_recipe(shot);
}

void add_footage(const Course& course, std::vector<Product>& products, std::string_view kind,
                 Footage footage) {
  const Clip clip = clip_of(course.options, footage);
  for (const film::Shot& shot : course.shots) {
    const std::string base = fmt::format("{}/{}", kind, shot.id);
    products.push_back({.kind = std::string{kind},
                        .path = base + std::string{file_ending(footage)},
                        .recipe = recipe_of(shot, clip),
                        .make = [&shot, clip](const std::filesystem::path& file) {
                          return write_clip(shot, file, clip.frames, clip.encoder);
                        }});
    // Players show no captions from inside a file: each clip has its own beside it.
    const auto cues = film::captions(shot);
    if (footage == Footage::h264 && !cues.empty()) {
      add_text(products, kind, base + ".vtt", film::to_vtt(cues));
    }
  }
}

}  // namespace

long frame_count(const film::Shot& shot, int fps) {
  return std::max(1L, film::frame_at(shot.length, fps));
}

std::optional<Failure> write_clip(const film::Shot& shot, const std::filesystem::path& file,
                                  const press::FrameOptions& frames,
                                  const EncoderOptions& encoder) {
  auto started = Encoder::start(file, encoder);
  if (!started.ok()) return started.error();
  Encoder& output = *started.value();
  const film::Motion motion(shot);
  press::FramePainter painter(frames);
  painter.begin(motion);
  const long count = frame_count(shot, encoder.fps);
  constexpr long second = 1000;
  for (long i = 0; i < count; ++i) {
    if (auto wrong = output.add(painter.frame(film::Milliseconds{i * second / encoder.fps}))) {
      return wrong;
    }
  }
  return output.finish();
}

void add_clips(const Course& course, std::vector<Product>& products) {
  add_footage(course, products, "clips", Footage::h264);
}

void add_overlays(const Course& course, std::vector<Product>& products) {
  add_footage(course, products, "overlays", Footage::vp9);
}

void add_prores(const Course& course, std::vector<Product>& products) {
  add_footage(course, products, "prores", Footage::prores);
}

void add_loops(const Course& course, std::vector<Product>& products) {
  add_footage(course, products, "loops", Footage::gif);
}

void add_stills(const Course& course, std::vector<Product>& products) {
  Clip clip = clip_of(course.options, Footage::prores);
  for (const film::Shot& shot : course.shots) {
    products.push_back(
        {.kind = "stills",
         .path = fmt::format("stills/{}.png", shot.id),
         .recipe = drawing_recipe(clip) + film::opening_recipe(shot),
         .make = [&shot, clip](const std::filesystem::path& file) {
           const film::Motion motion(shot);
           const auto png = press::frame_png(motion, film::Milliseconds{0}, clip.frames);
           if (png.ok()) return write_new_file(file, *png);
           return std::optional{failure(
               "cannot-print", fmt::format("the picture cannot be made: {}", png.error().reason),
               "free some memory, or ask for a smaller --size")};
         }});
  }
}

}  // namespace pointwright::app

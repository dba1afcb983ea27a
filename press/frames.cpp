#include "press/frames.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <optional>
#include <vector>

#include "press/cairo.hpp"
#include "press/painter.hpp"

namespace pointwright::press {

namespace {

/// A rectangle of whole pixels.
struct Patch {
  int left = 0;
  int top = 0;
  int right = 0;
  int bottom = 0;
  [[nodiscard]] bool empty() const { return right <= left || bottom <= top; }
};

constexpr std::size_t bytes_a_pixel = 4;

}  // namespace

struct FramePainter::Canvas {
  FrameOptions options;
  SurfaceOwner still;  ///< the still of `shown_still`, whole
  SurfaceOwner shown;  ///< what the last frame was
  const film::Motion* motion = nullptr;
  std::optional<std::size_t> shown_still;
  std::vector<Patch> dirty;  ///< where sprites are on `shown`
  double scale = 1;
  double left = 0;
  double top = 0;

  explicit Canvas(const FrameOptions& wanted)
      : options(wanted), still(surface()), shown(surface()) {}

  [[nodiscard]] SurfaceOwner surface() const {
    return SurfaceOwner(
        cairo_image_surface_create(CAIRO_FORMAT_ARGB32, options.width, options.height));
  }

  void fit(const drawing::Frame& frame) {
    const double free = 1 - 2 * options.safe_margin;
    scale = std::min(options.width * free / frame.width, options.height * free / frame.height);
    left = std::round((options.width - scale * frame.width) / 2);
    top = std::round((options.height - scale * frame.height) / 2);
  }

  [[nodiscard]] PaintStyle style() const {
    return {.theme = options.theme, .margins = Lettering::text, .board = Lettering::text};
  }

  void paint_still(const drawing::Frame& frame) {
    fit(frame);
    const ContextOwner context(cairo_create(still.get()));
    cairo_set_operator(context.get(), CAIRO_OPERATOR_CLEAR);
    cairo_paint(context.get());
    cairo_set_operator(context.get(), CAIRO_OPERATOR_OVER);
    if (options.paper) {
      use_tint(context.get(), Tint::paper, options.theme);
      cairo_paint(context.get());
    }
    cairo_translate(context.get(), left, top);
    cairo_scale(context.get(), scale, scale);
    paint(context.get(), frame, style());
    cairo_surface_flush(still.get());
  }

  void copy(const Patch& patch) {
    if (patch.empty()) {
      return;
    }
    cairo_surface_flush(shown.get());
    const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(still.get()));
    const unsigned char* from = cairo_image_surface_get_data(still.get());
    unsigned char* to = cairo_image_surface_get_data(shown.get());
    const std::size_t start = static_cast<std::size_t>(patch.left) * bytes_a_pixel;
    const std::size_t length = static_cast<std::size_t>(patch.right - patch.left) * bytes_a_pixel;
    for (int y = patch.top; y < patch.bottom; ++y) {
      const std::size_t at = static_cast<std::size_t>(y) * stride + start;
      std::memcpy(to + at, from + at, length);
    }
    cairo_surface_mark_dirty(shown.get());
  }

  [[nodiscard]] Patch whole() const { return {0, 0, options.width, options.height}; }

  [[nodiscard]] Patch patch_of(const film::Sprite& sprite) const {
    const double reach = sprite.reach * sprite.scale * scale + 2;
    const double x = left + sprite.at.x * scale;
    const double y = top + sprite.at.y * scale;
    return {std::clamp(static_cast<int>(std::floor(x - reach)), 0, options.width),
            std::clamp(static_cast<int>(std::floor(y - reach)), 0, options.height),
            std::clamp(static_cast<int>(std::ceil(x + reach)), 0, options.width),
            std::clamp(static_cast<int>(std::ceil(y + reach)), 0, options.height)};
  }

  void paint_sprite(cairo_t* context, const film::Sprite& sprite) const {
    cairo_save(context);
    cairo_translate(context, left, top);
    cairo_scale(context, scale, scale);
    cairo_translate(context, sprite.at.x, sprite.at.y);
    cairo_rotate(context, sprite.turn);
    cairo_scale(context, sprite.scale, sprite.scale);
    const bool fades = sprite.opacity < 1;
    if (fades) {
      cairo_push_group(context);
    }
    for (const drawing::Shape& shape : sprite.shapes) {
      paint(context, shape, style());
    }
    if (fades) {
      cairo_pop_group_to_source(context);
      cairo_paint_with_alpha(context, sprite.opacity);
    }
    cairo_restore(context);
  }

  void show(film::Milliseconds time) {
    const film::Moment moment = motion->at(time);
    if (shown_still != moment.still) {
      paint_still(motion->stills()[moment.still]);
      copy(whole());
      shown_still = moment.still;
    } else {
      for (const Patch& patch : dirty) {
        copy(patch);
      }
    }
    dirty.clear();
    if (moment.sprites.empty()) {
      return;
    }
    const ContextOwner context(cairo_create(shown.get()));
    for (const film::Sprite& sprite : moment.sprites) {
      paint_sprite(context.get(), sprite);
      dirty.push_back(patch_of(sprite));
    }
    cairo_surface_flush(shown.get());
  }
};

FramePainter::FramePainter(const FrameOptions& options)
    : canvas_(std::make_unique<Canvas>(options)) {}

FramePainter::~FramePainter() = default;

void FramePainter::begin(const film::Motion& motion) {
  canvas_->motion = &motion;
  forget();
}

void FramePainter::forget() {
  canvas_->shown_still.reset();
  canvas_->dirty.clear();
}

std::span<const std::byte> FramePainter::frame(film::Milliseconds time) {
  canvas_->show(time);
  const auto size = static_cast<std::size_t>(canvas_->options.width) *
                    static_cast<std::size_t>(canvas_->options.height) * bytes_a_pixel;
  return {reinterpret_cast<const std::byte*>(cairo_image_surface_get_data(canvas_->shown.get())),
          size};
}

Result<std::string, PressFault> frame_png(const film::Motion& motion, film::Milliseconds time,
                                          const FrameOptions& options) {
  FramePainter painter(options);
  painter.begin(motion);
  const auto pixels = painter.frame(time);
  // Cairo only reads from it.
  auto* data = const_cast<unsigned char*>(reinterpret_cast<const unsigned char*>(pixels.data()));
  const SurfaceOwner surface(
      cairo_image_surface_create_for_data(data, CAIRO_FORMAT_ARGB32, options.width, options.height,
                                          options.width * static_cast<int>(bytes_a_pixel)));
  std::string png;
  const auto status = cairo_surface_write_to_png_stream(surface.get(), append_bytes, &png);
  if (status != CAIRO_STATUS_SUCCESS) {
    return PressFault{cairo_status_to_string(status)};
  }
  return png;
}

}  // namespace pointwright::press

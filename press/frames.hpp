#pragma once

#include <cstddef>
#include <memory>
#include <span>

#include "film/motion.hpp"
#include "press/picture.hpp"
#include "rules/result.hpp"
#include "studio/looks.hpp"

/// Frames of a shot as pixels.
namespace pointwright::press {

struct FrameOptions {
  int width = 1920;  ///< in pixels; both are even and at most `widest_picture`
  int height = 1080;
  Theme theme = Theme::light;
  bool paper = true;  ///< false: around the board nothing is painted
  /// Share of the width and of the height that stays free on every side, so that a screen may cut
  /// the edge off (title-safe area: the inner nine tenths; common practice).
  double safe_margin = 0.05;
};

/// Paints the moments of one shot after another. Only what has changed since the last frame is
/// painted again; the bytes are the same as if everything were.
class FramePainter {
 public:
  explicit FramePainter(const FrameOptions& options);
  FramePainter(const FramePainter&) = delete;
  FramePainter& operator=(const FramePainter&) = delete;
  ~FramePainter();

  /// Begins a shot. `motion` has to live as long as its moments are painted.
  void begin(const film::Motion& motion);

  /// The frame of a time, `width * height` pixels of 4 bytes from the top left: blue, green, red,
  /// alpha, the colours multiplied by alpha. Good until the next call.
  std::span<const std::byte> frame(film::Milliseconds time);

  /// Forgets what is painted, so that the next frame is painted whole.
  void forget();

 private:
  struct Canvas;
  std::unique_ptr<Canvas> canvas_;
};

/// One frame as PNG.
Result<std::string, PressFault> frame_png(const film::Motion& motion, film::Milliseconds time,
                                          const FrameOptions& options);

}  // namespace pointwright::press

#include "press/picture.hpp"

#include <cairo-pdf.h>

#include <cmath>

#include "press/cairo.hpp"
#include "press/painter.hpp"

namespace pointwright::press {

namespace {

PressFault fault(cairo_status_t status) {
  return {cairo_status_to_string(status)};
}

void paper(cairo_t* context, Theme theme) {
  use_tint(context, Tint::paper, theme);
  cairo_paint(context);
}

}  // namespace

Result<std::string, PressFault> board_png(const Position& position, const BoardPicture& picture,
                                          const PictureOptions& options) {
  const drawing::Frame frame = board_frame(position, picture);
  const double scale = options.width / frame.width;
  const SurfaceOwner surface(cairo_image_surface_create(
      CAIRO_FORMAT_ARGB32, options.width, static_cast<int>(std::lround(frame.height * scale))));
  const ContextOwner context(cairo_create(surface.get()));
  if (options.paper) {
    paper(context.get(), options.theme);
  }
  cairo_scale(context.get(), scale, scale);
  paint(context.get(), frame,
        {.theme = options.theme, .margins = Lettering::text, .board = Lettering::text});
  if (const auto status = cairo_status(context.get()); status != CAIRO_STATUS_SUCCESS) {
    return fault(status);
  }
  std::string png;
  const auto status = cairo_surface_write_to_png_stream(surface.get(), append_bytes, &png);
  if (status != CAIRO_STATUS_SUCCESS) {
    return fault(status);
  }
  return png;
}

Result<std::string, PressFault> board_pdf(const Position& position, const BoardPicture& picture,
                                          Theme theme) {
  constexpr double page_width = 6 * 72;
  const drawing::Frame frame = board_frame(position, picture);
  const double scale = page_width / frame.width;
  std::string pdf;
  const SurfaceOwner surface(
      cairo_pdf_surface_create_for_stream(append_bytes, &pdf, page_width, frame.height * scale));
  {
    const ContextOwner context(cairo_create(surface.get()));
    paper(context.get(), theme);
    cairo_scale(context.get(), scale, scale);
    paint(context.get(), frame,
          {.theme = theme, .margins = Lettering::text, .board = Lettering::text});
    if (const auto status = cairo_status(context.get()); status != CAIRO_STATUS_SUCCESS) {
      return fault(status);
    }
  }
  cairo_surface_finish(surface.get());
  if (const auto status = cairo_surface_status(surface.get()); status != CAIRO_STATUS_SUCCESS) {
    return fault(status);
  }
  return pdf;
}

}  // namespace pointwright::press

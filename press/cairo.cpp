#include "press/cairo.hpp"

#include <exception>

namespace pointwright::press {

LayoutOwner make_layout(cairo_t* context, double size, PangoWeight weight, PangoStyle style) {
  LayoutOwner layout(pango_cairo_create_layout(context));
  PangoContext* pango = pango_layout_get_context(layout.get());
  const std::unique_ptr<cairo_font_options_t, Release> options(cairo_font_options_create());
  cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(pango, options.get());
  pango_context_set_round_glyph_positions(pango, FALSE);
  const FontOwner font(pango_font_description_new());
  pango_font_description_set_family_static(font.get(), typeface);
  pango_font_description_set_weight(font.get(), weight);
  pango_font_description_set_style(font.get(), style);
  pango_font_description_set_absolute_size(font.get(), size * PANGO_SCALE);
  pango_layout_set_font_description(layout.get(), font.get());
  return layout;
}

cairo_status_t append_bytes(void* closure, const unsigned char* data, unsigned int length) {
  // Cairo is C: no exception may pass through it.
  try {
    static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  } catch (const std::exception&) {
    return CAIRO_STATUS_NO_MEMORY;
  }
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace pointwright::press

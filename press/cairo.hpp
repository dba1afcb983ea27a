#pragma once

#include <cairo.h>
#include <pango/pangocairo.h>

#include <memory>
#include <string>

/// Cairo and Pango things that release themselves. For the files of this room alone.
namespace pointwright::press {

struct Release {
  void operator()(cairo_t* context) const { cairo_destroy(context); }
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  void operator()(PangoLayout* layout) const { g_object_unref(layout); }
  void operator()(PangoLayoutIter* iterator) const { pango_layout_iter_free(iterator); }
  void operator()(PangoFontDescription* font) const { pango_font_description_free(font); }
  void operator()(cairo_font_options_t* options) const { cairo_font_options_destroy(options); }
};

using ContextOwner = std::unique_ptr<cairo_t, Release>;
using SurfaceOwner = std::unique_ptr<cairo_surface_t, Release>;
using LayoutOwner = std::unique_ptr<PangoLayout, Release>;
using LineOwner = std::unique_ptr<PangoLayoutIter, Release>;
using FontOwner = std::unique_ptr<PangoFontDescription, Release>;

/// The typeface of everything that is printed or painted: Inter, from the package fonts-inter.
inline constexpr const char* typeface = "Inter";

/// A layout that sets text the same at every size and on every machine with the same fonts: sizes
/// are in user units, nothing is hinted or rounded to pixels.
LayoutOwner make_layout(cairo_t* context, double size, PangoWeight weight = PANGO_WEIGHT_NORMAL,
                        PangoStyle style = PANGO_STYLE_NORMAL);

/// Appends what cairo writes to the std::string behind `closure`.
cairo_status_t append_bytes(void* closure, const unsigned char* data, unsigned int length);

}  // namespace pointwright::press

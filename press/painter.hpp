#pragma once

#include <string>

#include "studio/drawing.hpp"
#include "studio/looks.hpp"

typedef struct _cairo cairo_t;  // NOLINT: cairo's own names

/// Paints frames: the same shapes that the SVG writer writes, with the same looks.
namespace pointwright::press {

/// How labels come out. In a document whose text is read in order, the numbers on a board would
/// come between its sentences.
enum class Lettering {
  text,     ///< as text, which can be searched and copied
  outline,  ///< as shapes
};

struct PaintStyle {
  Theme theme = Theme::light;
  Lettering margins = Lettering::text;   ///< names, turn, counts above and below
  Lettering board = Lettering::outline;  ///< numbers on points, stacks and cube
};

void paint(cairo_t* context, const drawing::Shape& shape, const PaintStyle& style);
void paint(cairo_t* context, const drawing::Layer& layer, const PaintStyle& style);

/// All layers of a frame, over whatever is there: between the layers nothing is filled in.
void paint(cairo_t* context, const drawing::Frame& frame, const PaintStyle& style);

/// Sets a tint as the colour to paint with. Precondition: it is not Tint::none.
void use_tint(cairo_t* context, Tint tint, Theme theme);

}  // namespace pointwright::press

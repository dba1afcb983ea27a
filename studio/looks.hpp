#pragma once

#include <string_view>

#include "studio/drawing.hpp"

/// How the roles of shapes look: colours and strokes, the same for every writer of frames.
namespace pointwright {

/// Sets of colours. `print` has greys only.
enum class Theme { light, dark, print };

/// The colours of a picture by what they are for. Checkers differ in lightness and in their inner
/// mark, points in hatching, arrows and refusals in their ends: no meaning hangs on hue alone.
enum class Tint {
  none,
  paper,
  panel,
  field,
  bar,
  sand,
  sage,
  engraving,
  ink,
  soft_ink,
  ivory,
  ivory_line,
  ebony,
  ebony_line,
  ebony_mark,
  allowed,
  refused,
  pointer,
  on_accent,
};
constexpr int tint_count = static_cast<int>(Tint::on_accent) + 1;

/// What a stroke or a text has besides its colour.
enum class Dress {
  plain,
  round_ends,  ///< lines end and turn round
  broken,      ///< dashes of 7 with gaps of 8, round ends
  bold,        ///< text of weight 600
  italic,
};

struct Look {
  std::string_view name;  ///< a word for it, fit for a class of CSS
  Tint fill = Tint::none;
  Tint stroke = Tint::none;
  double width = 0;  ///< of the stroke, in frame units
  Dress dress = Dress::plain;
};

const Look& look_of(drawing::Role role);

/// A word for a tint: "ivory-line".
std::string_view tint_name(Tint tint);

/// "#rrggbb", or "none".
std::string_view colour(Tint tint, Theme theme);

}  // namespace pointwright

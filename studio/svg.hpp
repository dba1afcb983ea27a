#pragma once

#include <array>
#include <string>
#include <string_view>

#include "studio/drawing.hpp"
#include "studio/looks.hpp"

/// Turns frames into SVG. Text stays text. Colour is given as presentation attributes, never as
/// inline style, so that the pictures stand under a strict content security policy.
namespace pointwright {

/// How shapes are written.
struct SvgStyle {
  bool colours = true;  ///< false: classes alone, for a page that brings `drawing_css`
  Theme theme = Theme::light;
  std::string prefix = "board";  ///< of the ids that figures are stored under
  bool names_checkers = false;   ///< whether each checker says where it stands: data-at="light 13"
};

/// Text made safe for element content and for attributes in double quotes, of XML, HTML and Pango's
/// markup. Characters that XML does
/// not allow are left out.
std::string escaped(std::string_view text);

/// A coordinate, rounded to a tenth, without needless zeros.
std::string svg_number(double value);

void write_layer(std::string& out, const drawing::Layer& layer, const SvgStyle& style);

/// The figures, each in a group with an id, for <defs>.
void write_figures(std::string& out, const SvgStyle& style);

/// Rules of CSS that say what the presentation attributes of a picture say, with the colours in
/// variables: `--pw-NAME`.
std::string drawing_css();

/// The variables of a theme: "--pw-paper:#fbf7ec;…".
std::string theme_css(Theme theme);

/// The variables of all themes: the dark one where it is preferred or the root's data-theme says
/// so, and one for paper.
std::string themes_css();

/// The fonts of labels, as a CSS list.
std::string_view drawing_fonts();

}  // namespace pointwright

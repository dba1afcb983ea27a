#pragma once

#include "studio/board_layout.hpp"

/// What a teacher points with: marks at points, and arrows for moves.
namespace pointwright {

/// Where the number of a point stands.
drawing::Spot point_number_spot(const BoardGeometry& geometry, Side side, Place point);

/// What a place takes up on the board: a point as far as its tallest stack, a side's half of the
/// bar, its half of the tray.
drawing::Box place_box(const BoardGeometry& geometry, Side side, Place place);

/// A bracket around each marked place, and its number set off. Marks lie below the checkers.
drawing::Layer mark_layer(const BoardGeometry& geometry, const BoardPicture& picture);

/// Arrows from checker to landing place, above everything. The arrows are made one after another in
/// mind, so that 8/5 6/5 lands on two places and 24/18 18/13 goes on with the same checker. A
/// refused one is broken and ends in a crossed disc instead of a head.
drawing::Layer arrow_layer(const BoardGeometry& geometry, const Position& position,
                           const BoardPicture& picture);

}  // namespace pointwright

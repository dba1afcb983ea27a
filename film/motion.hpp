#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "film/shots.hpp"
#include "studio/drawing.hpp"

/// A shot in motion: what stands still at a time, and what moves above it.
namespace pointwright::film {

/// Something in motion. Its shapes lie around the origin.
struct Sprite {
  std::vector<drawing::Shape> shapes;
  drawing::Spot at;
  double scale = 1;
  double turn = 0;     ///< in radians, clockwise
  double opacity = 1;  ///< 0 to 1
  double reach = 0;    ///< no ink lies farther from the origin, unscaled
};

/// The picture at one time.
struct Moment {
  std::size_t still = 0;  ///< which of the stills; equal numbers mean equal pictures
  std::vector<Sprite> sprites;
};

/// A shot's stills and motions, laid out once. The same shot gives the same moments.
///
/// A checker lifts, travels along a curve and is laid down, one after another in the order of the
/// play; one that is hit goes to the bar when the other has landed. A play that is refused is gone
/// through and taken back. Dice roll in, the cube turns. Marks and arrows appear in a third of a
/// second. Everything starts and ends gently.
class Motion {
 public:
  explicit Motion(const Shot& shot);

  /// Precondition: 0 <= time. Past the end the last picture stays.
  [[nodiscard]] Moment at(Milliseconds time) const;

  [[nodiscard]] const std::vector<drawing::Frame>& stills() const { return stills_; }

 private:
  /// One thing moving, from a time to a time of the shot.
  struct Track {
    enum class Kind { travel, there_and_back, tumble, turn_over, appear };
    Kind kind = Kind::travel;
    Milliseconds begin{};
    Milliseconds end{};
    Sprite sprite;
    std::vector<drawing::Shape> later;  ///< of `turn_over`: what is seen from halfway on
    drawing::Spot from;
    drawing::Spot bend;  ///< the control of a quadratic curve
    drawing::Spot to;
  };
  /// What stands still from a time on.
  struct Scenery {
    Milliseconds begin{};
    std::size_t still = 0;
  };

  void add_still(Milliseconds begin, drawing::Frame frame);
  void add_beat(const Shot& shot, const Beat& beat);
  void add_moves(const Beat& beat);
  void add_dice(const Beat& beat);
  void add_cube(const Shot& shot, const Beat& beat);
  void add_pointing(const Beat& beat, Milliseconds begin);
  [[nodiscard]] static Sprite sprite_at(const Track& track, double share);

  std::vector<drawing::Frame> stills_;
  std::vector<Scenery> scenery_;  ///< by time
  std::vector<Track> tracks_;
};

/// Everything that the first picture of a shot depends on, as text: equal texts, equal pictures.
std::string opening_recipe(const Shot& shot);

/// Everything that the moving picture of a shot depends on, as text: equal texts, equal pictures.
std::string picture_recipe(const Shot& shot);

}  // namespace pointwright::film

#pragma once

#include <string>
#include <vector>

#include "film/shots.hpp"
#include "press/handout.hpp"

/// What lies on the table on a day of filming.
namespace pointwright::press {

/// The script: each shot with its board, what is said, what the hands do and how long it takes, and
/// what it proves.
Result<std::string, PressFault> script_pdf(const Storyboard& course,
                                           const std::vector<film::Shot>& shots,
                                           const PrintOptions& options);

/// From where the board is set up.
enum class Seat {
  camera,    ///< where the camera stands
  opposite,  ///< across the table from it
};

struct StageOptions {
  PrintOptions print;
  Seat seat = Seat::camera;
  bool mirrored = false;    ///< for a camera that shows left and right exchanged
  bool best_order = false;  ///< whether to film in the order with the fewest checkers touched
};

/// For each shot the set-up of the real board and, from the shot before, the fewest checkers to
/// touch and in which order.
Result<std::string, PressFault> stage_sheets_pdf(const Storyboard& course,
                                                 const std::vector<film::Shot>& shots,
                                                 const StageOptions& options);

/// The same as a table: one line for each shot, in the order of filming.
std::string stage_list_csv(const std::vector<film::Shot>& shots, const StageOptions& options);

}  // namespace pointwright::press

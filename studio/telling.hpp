#pragma once

#include <optional>
#include <string>

#include "rules/position.hpp"
#include "storyboard/storyboard.hpp"
#include "studio/board_layout.hpp"

/// How a show is told, step by step, in every output alike.
namespace pointwright {

/// Carries a show from step to step: what is on the board and what lies beside it.
class Telling {
 public:
  /// `start` is the position of the scene.
  explicit Telling(const Position& start);

  [[nodiscard]] const Position& position() const { return position_; }

  /// Goes on to the position after a step and says how it is drawn. The dice lie until they are
  /// lifted, though the position already waits for the next roll.
  BoardPicture next(const View& view, const SideNames& names, const Step& step,
                    const Position& after);

 private:
  Position position_;
  std::optional<Position> last_thrown_;  // while dice lie, whose they are
};

/// What a step does, in the trade's notation or in a few words: "24/18/14", "Ivory rolls 6-4";
/// empty when nothing moves.
std::string action_words(const Step& step, const Position& before, const Position& after,
                         const SideNames& names);

/// The right answers of a question in words: "bar/22 6/5", "any of the 12 legal plays".
std::string right_answer(const Question& question);

}  // namespace pointwright

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "lesson/board.hpp"
#include "lesson/report.hpp"
#include "storyboard/storyboard.hpp"

/// Show blocks: lines of action and spoken words.
namespace pointwright::lesson {

/// One line of a show, cut into its parts.
struct ShowLine {
  TextSpan action;    ///< may be empty
  std::string words;  ///< without quotation marks and escapes
  bool spoken = false;
  std::optional<double> seconds;
};

/// Cuts a line `ACTION "WORDS" (N s)`. Reports what cannot be read of the words and the duration,
/// and gives the action all the same, so that the steps after it are judged from the right board.
ShowLine read_show_line(TextSpan line, Report& report);

/// Plays the shows of one scene, step by step, under the rules.
class Stage {
 public:
  Stage(Position position, const SideNames& names);

  /// Adds the steps of a show block to the scene. After a step that the rules refuse the rest is
  /// only read, since what follows depends on it.
  void run(const Fenced& block, const Boards& boards, Scene& scene, Report& report);

 private:
  bool act(const ShowLine& line, TextSpan whole, const Boards& boards, Step& step, Report& report);
  bool roll(TextSpan where, Step& step, Report& report);
  bool move(TextSpan where, Step& step, Report& report);
  bool attempt(TextSpan where, Step& step, Report& report);
  bool cube(std::string_view action, TextSpan where, Step& step, Report& report);
  bool place(TextSpan where, const Boards& boards, Step& step, Report& report);

  /// Ends the turn if its moves are a whole legal play (or none is possible).
  bool end_turn();
  void pass_turn();
  bool dice_lie(TextSpan where, std::string_view action, Report& report) const;
  [[nodiscard]] Position now() const;

  Position position_;  ///< at the beginning of the turn
  const SideNames* names_;
  Board board_;             ///< with the moves of this turn made
  Attempt written_;         ///< the moves of this turn as written
  std::vector<Move> made_;  ///< the same as moves
  bool roll_announced_ = false;
  bool offered_ = false;
  std::string over_;  ///< why nothing more can happen
};

}  // namespace pointwright::lesson

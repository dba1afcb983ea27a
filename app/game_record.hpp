#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "rules/play.hpp"
#include "rules/position.hpp"

namespace pointwright::app {

/// Games as they were played, kept as a lesson: each game is a board and a show, which `pointwright
/// check` proves move by move and `pointwright build` makes a page of.
class GameRecord {
 public:
  /// A game begins with the opening roll in `position`.
  void begin(const Position& position);
  void roll(Roll roll) { add("roll " + to_text(roll)); }
  /// The play of a turn; empty where no move was legal.
  void play(const Play& play);
  void offer() { add("double"); }
  void take() { add("take"); }
  void drop() { add("drop"); }
  /// A sentence after the game: how it ended.
  void remark(std::string text);

  /// The lesson. `title` and `note` are one line each.
  [[nodiscard]] std::string text(std::string_view title, std::string_view note) const;

 private:
  struct Game {
    std::string board;
    std::vector<std::string> steps{};
    std::string remark{};
  };
  void add(std::string step) { games_.back().steps.push_back(std::move(step)); }
  std::vector<Game> games_;
};

}  // namespace pointwright::app

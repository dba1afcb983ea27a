#pragma once

#include <array>
#include <vector>

#include "rules/play.hpp"
#include "rules/roll.hpp"

/// A turn in the making: what may still be done with the checkers so that it ends as a legal play.
namespace pointwright::web {

/// One journey of one checker that can be made now.
struct Journeying {
  Place from = 0;
  Place to = 0;
  std::vector<Move> steps;  ///< one for each die, in order
};

/// Every way to go on with a turn. Built once for a roll, asked after each move.
class TurnGuide {
 public:
  TurnGuide(const Board& start, Side side, Roll roll);

  /// Whether the checkers stand as a complete legal play leaves them. If no move is legal, only the
  /// board at the start does.
  [[nodiscard]] bool is_complete(const Board& now) const;

  /// Whether the checkers stand so that a legal play can still be completed.
  [[nodiscard]] bool is_on_the_way(const Board& now) const;

  /// Every journey of one checker, over one die or several, after which the turn can still be
  /// completed. Where one place can be reached from another in several ways, the shortest stands
  /// for all, and of those the one with the fewest hits.
  [[nodiscard]] std::vector<Journeying> journeys(const Board& now) const;

  /// The numbers that are not played yet: empty where the board is not on the way.
  [[nodiscard]] std::vector<int> dice_left(const Board& now) const;

  /// How many moves every legal play makes.
  [[nodiscard]] int moves() const { return moves_; }

 private:
  struct Edge {
    Move move;
    std::size_t to = 0;
  };
  struct Node {
    Board board;
    int high_left = 0;
    int low_left = 0;
    bool live = false;  ///< whether a legal play passes here
    std::vector<Edge> edges;
  };

  void grow(Side side);
  void walk(const Node& node, std::vector<Move>& steps, std::vector<Journeying>& found) const;

  Roll roll_;
  int moves_ = 0;
  std::vector<Node> nodes_;     ///< layer by layer: so many dice played
  std::size_t last_layer_ = 0;  ///< index of the first node of the last layer
};

}  // namespace pointwright::web

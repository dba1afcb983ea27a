#pragma once

#include <vector>

#include "chance/next_roll.hpp"
#include "rules/play.hpp"

namespace pointwright::judge {

/// What can be counted on the board about a play, before and after it. All exact. Places are as the
/// mover counts.
struct PlayFacts {
  std::vector<Place> made;    ///< points held after it (two checkers or more) and not before
  std::vector<Place> broken;  ///< points held before it and not after
  std::vector<Place> hits;    ///< where it hits
  std::vector<Place> blots;   ///< lone checkers after it
  int escaped = 0;            ///< checkers that left the other side's home board, bar included
  int off = 0;                ///< checkers borne off
  int home_points = 0;        ///< points of its home board that the mover holds after it
  int anchors = 0;            ///< points of the other side's home board that it holds after it
  int prime = 0;              ///< the longest row of held points with an opposing checker behind it
  int builders = 0;  ///< spare checkers that bear on a home point still to be made; see builders()
  int pips = 0;      ///< of the mover
  int their_pips = 0;
  int on_their_bar = 0;  ///< checkers of the other side
};

/// Counts for a play from `before`. Precondition: `play` is a legal play of `side` from there.
PlayFacts facts_of(const Board& before, Side side, const LegalPlay& play);

/// Checkers of a side that are free to make a home point: outside the home board, not needed to
/// hold a point of two (a third checker on a point, or a lone one), and at most six pips away from
/// a home point that neither side holds.
int builders(const Board& board, Side side);

/// The longest row of neighbouring points that a side holds and that some opposing checker has
/// still to pass, the bar included. 0 when no checker has to pass any.
int longest_prime(const Board& board, Side side);

/// Whether an opposing checker, the bar included, stands one to six pips in front of a side's blot,
/// so that one die can be enough to hit it.
bool is_within_a_die(const Board& board, Side side, Place blot);

/// The rolls with which the other side can hit next turn.
struct Shots {
  struct OnBlot {
    Place blot = 0;  ///< as the side that is shot at counts
    int ways = 0;    ///< of 36
    /// Whether an opposing checker stands at most six pips away: one die can be enough.
    bool direct = false;
  };
  int ways = 0;  ///< of 36: any blot
  std::vector<Roll> rolls;
  std::vector<OnBlot> blots;  ///< those that can be hit, the most exposed first
};

/// Counts the rolls that hit. `next` is the next roll of the side that shoots.
Shots shots(const chance::NextRoll& next);

}  // namespace pointwright::judge

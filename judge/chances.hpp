#pragma once

namespace pointwright::judge {

/// How a game may end for the side on roll, as chances from 0 to 1. `win` includes gammons, and
/// `win_gammon` includes backgammons; likewise for losses.
struct Chances {
  float win = 0;
  float win_gammon = 0;
  float win_backgammon = 0;
  float lose_gammon = 0;
  float lose_backgammon = 0;

  /// Points won on average, without a cube.
  [[nodiscard]] float equity() const {
    return 2 * win - 1 + win_gammon + win_backgammon - lose_gammon - lose_backgammon;
  }
  /// The same game seen by the other side.
  [[nodiscard]] Chances reversed() const {
    return {1 - win, lose_gammon, lose_backgammon, win_gammon, win_backgammon};
  }
  /// Adds another's chances, `weight` times: for averages over rolls.
  void add(const Chances& other, float weight) {
    win += weight * other.win;
    win_gammon += weight * other.win_gammon;
    win_backgammon += weight * other.win_backgammon;
    lose_gammon += weight * other.lose_gammon;
    lose_backgammon += weight * other.lose_backgammon;
  }
  friend bool operator==(const Chances&, const Chances&) = default;
};

}  // namespace pointwright::judge

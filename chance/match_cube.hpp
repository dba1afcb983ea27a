#pragma once

#include <cstdint>

#include "chance/gammon_shares.hpp"
#include "chance/match_table.hpp"
#include "chance/piecewise.hpp"
#include "rules/position.hpp"

namespace pointwright::chance {

/// The score of a match as one side sees it: points that each still needs.
struct Needs {
  int mine = 1;
  int theirs = 1;
  bool after_crawford = false;  ///< whether the Crawford game has been played

  [[nodiscard]] Needs reversed() const { return {theirs, mine, after_crawford}; }
};

/// What `side` needs at this score.
Needs needs(const MatchScore& score, Side side);

/// The chance of winning the match once I have won `mine` more points or the other side `theirs`.
double chance_after(const MatchTable& table, const Needs& needs, std::int64_t mine,
                    std::int64_t theirs);

/// What the ends of a game at one cube value are worth, as my chances of winning the match.
struct GameEnds {
  double win = 0;
  double win_gammon = 0;
  double win_backgammon = 0;
  double lose = 0;
  double lose_gammon = 0;
  double lose_backgammon = 0;

  /// The average win and loss, where the shares of gammons and backgammons are as given.
  [[nodiscard]] double average_win(double gammons, double backgammons) const;
  [[nodiscard]] double average_loss(double gammons, double backgammons) const;
};

GameEnds game_ends(const MatchTable& table, const Needs& needs, std::uint64_t cube);

/// What a gammon adds to a single win, as a part of the swing between a single win and a single
/// loss.
double gammon_value(const GameEnds& ends);

/// My chance of winning the match as a function of my chance of winning the game, with a fully live
/// cube of that value held by me, or by the other side.
Piecewise live_cube_mine(const MatchTable& table, const Needs& needs, std::uint64_t cube,
                         const GammonShares& shares);
Piecewise live_cube_theirs(const MatchTable& table, const Needs& needs, std::uint64_t cube,
                           const GammonShares& shares);

/// A cube decision in numbers. All are chances from 0 to 1.
struct ScoreDecision {
  std::uint64_t cube = 1;    ///< before the offer
  double drop = 0;           ///< the taker's chance in the match after dropping
  double take_and_win = 0;   ///< after taking and winning (gammons in their share)
  double take_and_lose = 0;  ///< after taking and losing
  double dead_take_point =
      0;  ///< the taker needs this chance of winning the game, never redoubling
  double live_take_point = 0;  ///< the same if the taker can use the cube to the full
  double double_point = 0;     ///< the offering side gains by a double that nobody will turn again
                               ///< from this chance of winning the game on
  double gammon_value = 0;  ///< for the offering side at the doubled cube: what a gammon adds, as
                            ///< a part of the swing between a single win and a single loss
  bool cube_is_dead =
      false;  ///< the taker cannot use the cube: its value reaches the taker's needs
  // What the numbers were made from, as the taker sees it.
  GammonShares shares;
  GameEnds now;      ///< the ends of the game at the cube as it stands
  GameEnds doubled;  ///< and at the doubled cube
};

/// The decision over a double offered by the side other than `taker`'s, at the taker's needs.
/// Shares are as the taker sees them ("mine" is the taker's).
ScoreDecision decide_at_score(const MatchTable& table, const Needs& taker, std::uint64_t cube,
                              const GammonShares& shares = {});

}  // namespace pointwright::chance

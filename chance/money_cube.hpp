#pragma once

#include <optional>

#include "chance/gammon_shares.hpp"

namespace pointwright::chance {

/// What a game played for points is worth to me when I win and when I lose it, on average and in
/// units of the cube: 1 without gammons, up to 3. Both are positive.
struct GameValues {
  double win = 1;
  double loss = 1;
};

/// What an average game is worth where so many of the games won are more than single ones.
GameValues game_values(const GammonShares& shares);

/// Whom the cube serves.
enum class CubePlace { centred, mine, theirs };

/// My chances of winning the game at which decisions change, in a game for points.
///
/// `life` runs from 0 (dead cube: nobody will turn it again) to 1 (live: every turn comes at the
/// other side's drop point) and interpolates between the two. Source: Rick Janowski, "Take-Points
/// in Money Games", 1993, restated from memory; the tests derive both ends anew: life 0 from risk
/// and gain, life 1 from E. Keeler and J. Spencer, "Optimal Doubling in Backgammon", Operations
/// Research 23(6), 1975, extended to games worth more than one cube.
double take_point(const GameValues& values, double life);
double cash_point(const GameValues& values, double life);

/// What the game is worth to me in units of the cube, at a chance of winning it, with the cube as
/// placed. The same interpolation between a dead and a live cube. With `jacoby` and a centred cube,
/// gammons count only after it is turned: a dead centred cube then wins and loses one unit.
double cubeful_equity(double chance, const GameValues& values, CubePlace place, double life,
                      bool jacoby = false);

/// What a gammon won adds, as a part of the swing between a single win and a single loss: 1/2.
inline constexpr double money_gammon_value = 0.5;

/// From here on, up to `cash_point`, doubling is worth at least as much as waiting.
double doubling_point(const GameValues& values, double life, bool jacoby = false);
double redoubling_point(const GameValues& values, double life);

/// From here on playing for a gammon with the cube in the middle is worth more than the other
/// side's drop; nothing if it never is.
std::optional<double> too_good_point(const GameValues& values, double life, bool jacoby = false);

/// A double in a game for points, in numbers. Chances are of winning the game.
struct MoneyDecision {
  GameValues taker;              ///< as the side that is asked sees them
  bool jacoby = false;           ///< gammons count only once the cube was turned
  double dead_take_point = 0;    ///< the taker needs this much, never redoubling
  double live_take_point = 0;    ///< the same if it can use the cube to the full
  double dead_double_point = 0;  ///< the other side gains, by turning a cube from the middle that
                                 ///< nobody will turn again, from here on
};

/// The decision over a double by the other side; shares are as the taker sees them.
MoneyDecision decide_for_money(const GammonShares& shares, bool jacoby = false);

}  // namespace pointwright::chance

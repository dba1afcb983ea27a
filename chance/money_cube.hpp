#pragma once

namespace pointwright::chance {

/// What a game played for points is worth to me when I win and when I lose it, on average and in
/// units of the cube: 1 without gammons, up to 3. Both are positive.
struct GameValues {
  double win = 1;
  double loss = 1;
};

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

}  // namespace pointwright::chance

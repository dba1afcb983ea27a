#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "chance/match_cube.hpp"
#include "chance/two_sided_cube.hpp"
#include "judge/chances.hpp"
#include "rules/position.hpp"

namespace pointwright::judge {

/// How much of its full use a cube gets, 0 (dead) to 1 (live): see chance/money_cube.hpp. The usual
/// value, about two thirds, is common practice; rollouts agree (docs/decisions/cube-model.md).
inline constexpr double usual_cube_life = 0.68;
/// The same when both sides bear off: the value that agrees best with the exact tables of all races
/// of up to six checkers a side (docs/decisions/cube-model.md has the curve).
inline constexpr double bearoff_cube_life = 0.5;

/// The life of a cube over a board: that of bear-offs where both sides are home, else the usual.
double cube_life(const Board& board);

/// What a cube decision depends on besides the checkers, seen by the side on roll.
struct CubeSituation {
  CubeAccess access = CubeAccess::centred;
  bool gammons = true;  ///< whether gammons count at all
  bool jacoby = false;  ///< whether they count only once the cube was turned
  bool beavers = false;
  double life = usual_cube_life;
  std::uint64_t cube = 1;
  std::optional<chance::Needs> match{};  ///< points that both sides still need; none: for points
  /// Where `match` is set: the chances behind. Null: the standard table.
  const chance::MatchTable* table = nullptr;
};

/// Where the cube of a position is for `side`: `none` where the game is played without one, or it
/// is the Crawford game.
CubeAccess cube_access(const Position& position, Side side);

/// The situation of a position for `side`, which is on roll. Nothing if the match is over or longer
/// than the standard match table.
std::optional<CubeSituation> cube_situation(const Position& position, Side side);

enum class CubeAction : std::uint8_t {
  none,      ///< the side may not offer the cube, or could gain nothing by it
  hold,      ///< too early
  offer,     ///< double
  too_good,  ///< the other side would drop, and playing on for a gammon is worth more
};
enum class CubeReply : std::uint8_t { take, drop, beaver };

/// "none", "hold", "double" or "too good", and "take", "drop" or "beaver".
std::string_view name(CubeAction action);
std::string_view name(CubeReply reply);

/// What both sides should do about the cube. Equities belong to the side on roll, in units of the
/// cube as it stands; in a match they are chances of winning it, scaled so that a single win at
/// this cube is +1 and a single loss -1.
struct CubeDecision {
  CubeAction action = CubeAction::none;
  CubeReply reply = CubeReply::take;  ///< if it were offered
  double hold = 0;                    ///< worth of not offering
  double take = 0;                    ///< worth of offering, if taken (beavered where that is best)
  double drop = 1;                    ///< worth of offering, if dropped
  /// Worth of offering: the other side gives the answer that costs it less.
  double offered = 0;
  double action_margin = 0;  ///< between the better and the worse of holding and offering
  double reply_margin = 0;   ///< between taking and dropping

  /// Worth of the position when both sides do what is best.
  [[nodiscard]] double equity() const { return action == CubeAction::offer ? offered : hold; }
};

/// What both sides should do once it is known what holding and doubling that is taken are worth, on
/// the scale of CubeDecision.
CubeDecision decide_between(double hold, double take, const CubeSituation& situation);

/// Decides by the model: the live and the dead cube are both worked out from the chances without a
/// cube, and mixed by `life`. Source for points: R. Janowski, "Take-Points in Money Games", 1993,
/// in chance/money_cube.hpp; at a match score the same mixture of a game played to its end at this
/// cube and of a fully live cube in chances of winning the match (chance/match_cube.hpp).
CubeDecision decide(const Chances& chances, const CubeSituation& situation);

/// The same for a position and the chances of the side on roll. Nothing where `cube_situation` has
/// nothing. With the cube on offer: as the position was before.
std::optional<CubeDecision> decide(const Chances& chances, const Position& position);

/// What the side on roll is worth before it rolls and before it decides about the cube, on the
/// scale of CubeDecision; with `may_offer` false, as if it had decided to hold.
double cubeful_equity(const Chances& chances, const CubeSituation& situation, bool may_offer);

/// The situation as the other side sees it when its turn comes.
CubeSituation passed_on(const CubeSituation& situation);

}  // namespace pointwright::judge

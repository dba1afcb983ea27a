#pragma once

#include <string>

#include "rules/position.hpp"
#include "rules/refusal.hpp"
#include "rules/result.hpp"
#include "rules/ruling.hpp"
#include "rules/score.hpp"

namespace pointwright {

/// The referee's answer on an offer of the cube.
struct CubeRuling {
  bool allowed = false;
  const Rule* rule = nullptr;  ///< when refused: the rule that decides; null: the program's limit
  std::string proof;           ///< one to three sentences that a learner can check
  bool dead = false;  ///< when allowed: a match in which the offer can gain the side nothing
};

/// Rules on `side` offering the cube now. The checks run in the order in which a referee would make
/// them: cube in use, game still on, match still on, Crawford game, who holds the cube, whose turn
/// it is, before the roll.
/// The game has no upper limit; `largest_cube` is the program's and is reported as that.
CubeRuling may_offer(const Position& position, Side side, const SideNames& names = {});

/// Whether a higher cube can gain `side` nothing: in a match, once a single game at the present
/// value already wins it. Never outside a match.
bool cube_is_dead_for(const Position& position, Side side);

/// The position after the side to play has offered and the other side has taken: the cube one value
/// higher and with the taker, the same side still to roll.
Result<Position, Refusal> after_take(const Position& position, const SideNames& names = {});

/// The result of the game when the side to play has offered and the other side drops.
Result<GameResult, Refusal> after_drop(const Position& position, const SideNames& names = {});

/// The position after an offer that was answered with a beaver, and accepted: the cube two values
/// higher and with the side that was offered it. Refused unless the house rule is in force.
Result<Position, Refusal> after_beaver(const Position& position, const SideNames& names = {});

/// The result of the game when the side that offered drops the beaver: the other side wins the
/// value that was offered.
Result<GameResult, Refusal> after_beaver_drop(const Position& position,
                                              const SideNames& names = {});

}  // namespace pointwright

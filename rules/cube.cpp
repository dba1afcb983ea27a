#include "rules/cube.hpp"

#include "rules/book/cube.hpp"
#include "rules/book/game.hpp"
#include "rules/book/match.hpp"

namespace pointwright {
namespace {

CubeRuling refuse(const Rule* rule, std::string proof) {
  return {false, rule, std::move(proof), false};
}

std::string value_text(std::uint64_t value) {
  return std::to_string(value);
}

CubeRuling refuse_limit(std::uint64_t value) {
  return refuse(nullptr, "The game has no upper limit, but this program counts cubes up to " +
                             value_text(largest_cube) + ", and the cube is at " +
                             value_text(value) + ".");
}

CubeRuling refuse_crawford(const Position& position, const SideNames& names) {
  const MatchScore& match = *position.match;
  const Side leader = match.points[0] >= match.points[1] ? Side::light : Side::dark;
  return refuse(&book::crawford,
                names[leader] + " has " + std::to_string(match.points[index(leader)]) +
                    " points and needs one more in a match to " + std::to_string(match.length) +
                    ": this is the Crawford game, and nobody doubles in it.");
}

CubeRuling allow(const Position& position, Side side, const SideNames& names) {
  CubeRuling ruling;
  ruling.allowed = true;
  const std::string next = value_text(position.cube.value * 2);
  ruling.proof = names[side] + " is to play and has not rolled, and the cube is ";
  ruling.proof += position.cube.holder ? "with " + names[side] : "in the middle";
  ruling.proof += ": it may be offered at " + next + ".";
  ruling.dead = cube_is_dead_for(position, side);
  if (ruling.dead) {
    const int needed = position.match->length - position.match->points[index(side)];
    ruling.proof += " It gains " + names[side] + " nothing, since " + names[side] + " needs " +
                    std::to_string(needed) + " and a single game at " +
                    value_text(position.cube.value) + " already wins the match: the cube is dead.";
  }
  return ruling;
}

Refusal nobody_to_play() {
  return {&book::cube_own_turn,
          "Nobody is to play in this position; the cube is offered by the side to play, before it "
          "rolls."};
}

/// Why the side to play may not offer, or nothing if it may.
std::optional<Refusal> refused_offer(const Position& position, const SideNames& names) {
  if (!position.turn && !winner_of(position.board)) return nobody_to_play();
  const CubeRuling ruling = may_offer(position, position.turn.value_or(Side::light), names);
  if (ruling.allowed) return std::nullopt;
  return Refusal{ruling.rule, ruling.proof};
}

std::optional<Refusal> refused_beaver(const Position& position, const SideNames& names) {
  if (std::optional<Refusal> refusal = refused_offer(position, names)) return refusal;
  if (!in_force(position.house, position.match.has_value()).beavers) {
    return Refusal{&book::cube_take_or_drop,
                   position.match && position.house.beavers
                       ? "Beavers are not used in a match: the offer is taken or dropped."
                       : "The house rule beavers is off: the offer is taken or dropped."};
  }
  if (position.cube.value > largest_cube / 4) {
    const CubeRuling limit = refuse_limit(position.cube.value * 2);
    return Refusal{limit.rule, limit.proof};
  }
  return std::nullopt;
}

}  // namespace

CubeRuling may_offer(const Position& position, Side side, const SideNames& names) {
  const std::string& who = names[side];
  if (!position.house.cube)
    return refuse(&book::cube_in_use, "This game is played without the cube (house rule no-cube).");
  if (const std::optional<Side> winner = winner_of(position.board))
    return refuse(&book::win,
                  names[*winner] + " has borne off all its checkers: the game is over.");
  if (position.match && match_over(*position.match))
    return refuse(&book::match_length, "The match is over.");
  if (position.match && position.match->crawford) return refuse_crawford(position, names);
  if (position.cube.holder && *position.cube.holder != side)
    return refuse(&book::cube_holder, names[*position.cube.holder] + " took the cube at " +
                                          value_text(position.cube.value) +
                                          " and holds it, so only " + names[*position.cube.holder] +
                                          " may offer it next.");
  if (!position.turn) return refuse(&book::cube_own_turn, nobody_to_play().proof);
  if (*position.turn != side)
    return refuse(&book::cube_own_turn, names[*position.turn] + " is to play, so " + who +
                                            " waits for its own turn before it may double.");
  if (position.roll)
    return refuse(&book::cube_before_roll, who + " has already rolled " + to_text(*position.roll) +
                                               "; the cube is offered before the dice are thrown.");
  if (position.cube.value >= largest_cube) return refuse_limit(position.cube.value);
  return allow(position, side, names);
}

bool cube_is_dead_for(const Position& position, Side side) {
  if (!position.match) return false;
  const int needed = position.match->length - position.match->points[index(side)];
  return needed <= 0 || position.cube.value >= static_cast<std::uint64_t>(needed);
}

Result<Position, Refusal> after_take(const Position& position, const SideNames& names) {
  if (std::optional<Refusal> refusal = refused_offer(position, names)) return *refusal;
  Position taken = position;
  taken.cube = {position.cube.value * 2, opponent(*position.turn)};
  return taken;
}

Result<GameResult, Refusal> after_drop(const Position& position, const SideNames& names) {
  if (std::optional<Refusal> refusal = refused_offer(position, names)) return *refusal;
  return result_of_drop(position, opponent(*position.turn));
}

Result<Position, Refusal> after_beaver(const Position& position, const SideNames& names) {
  if (std::optional<Refusal> refusal = refused_beaver(position, names)) return *refusal;
  Position beavered = position;
  beavered.cube = {position.cube.value * 4, opponent(*position.turn)};
  return beavered;
}

Result<GameResult, Refusal> after_beaver_drop(const Position& position, const SideNames& names) {
  if (std::optional<Refusal> refusal = refused_beaver(position, names)) return *refusal;
  return GameResult{opponent(*position.turn), WinKind::single, true, position.cube.value * 2};
}

}  // namespace pointwright

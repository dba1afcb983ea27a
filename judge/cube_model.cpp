#include "judge/cube_model.hpp"

#include <algorithm>
#include <cmath>

#include "chance/money_cube.hpp"
#include "rules/score.hpp"

namespace pointwright::judge {
namespace {

using chance::CubePlace;
using chance::GameEnds;
using chance::GammonShares;
using chance::Needs;
using chance::Piecewise;

/// The part of the games won (or lost) that are more than a single one.
double share(float part, double whole) {
  return whole > 1e-9 ? std::clamp(static_cast<double>(part) / whole, 0.0, 1.0) : 0.0;
}

/// Shares of gammons and of backgammons, which here do not count among the gammons.
GammonShares shares_of(const Chances& chances, bool count) {
  if (!count) return {};
  const auto win = static_cast<double>(chances.win);
  GammonShares shares;
  shares.my_backgammons = share(chances.win_backgammon, win);
  shares.mine = share(chances.win_gammon, win) - shares.my_backgammons;
  shares.their_backgammons = share(chances.lose_backgammon, 1 - win);
  shares.theirs = share(chances.lose_gammon, 1 - win) - shares.their_backgammons;
  return shares;
}

/// What a game for points is worth without a further turn or with one, at the cube as it stands.
class Points {
 public:
  Points(const Chances& chances, const CubeSituation& situation)
      : situation_(situation), win_(static_cast<double>(chances.win)) {
    const GammonShares shares = shares_of(chances, situation.gammons);
    values_ = {1 + shares.mine + 2 * shares.my_backgammons,
               1 + shares.theirs + 2 * shares.their_backgammons};
  }

  [[nodiscard]] double with(CubeAccess access) const {
    if (access == CubeAccess::none) return win_ * values_.win - (1 - win_) * values_.loss;
    const CubePlace place =
        access == CubeAccess::centred
            ? CubePlace::centred
            : (access == CubeAccess::mine ? CubePlace::mine : CubePlace::theirs);
    return chance::cubeful_equity(win_, values_, place, situation_.life, situation_.jacoby);
  }
  [[nodiscard]] double taken() const { return 2 * with(CubeAccess::theirs); }

 private:
  const CubeSituation& situation_;
  double win_;
  chance::GameValues values_;
};

/// The same at a match score, scaled as in CubeDecision.
class Match {
 public:
  Match(const Chances& chances, const CubeSituation& situation)
      : situation_(situation),
        table_(situation.table != nullptr ? *situation.table : chance::standard_match_table()),
        needs_(*situation.match),
        win_(static_cast<double>(chances.win)),
        shares_(shares_of(chances, situation.gammons)),
        ends_(chance::game_ends(table_, needs_, situation.cube)) {}

  [[nodiscard]] double with(CubeAccess access) const {
    return scaled(mixed(access, situation_.cube));
  }
  [[nodiscard]] double taken() const {
    return scaled(mixed(CubeAccess::theirs, 2 * situation_.cube));
  }

 private:
  [[nodiscard]] double scaled(double match_chance) const {
    return 2 * (match_chance - ends_.lose) / (ends_.win - ends_.lose) - 1;
  }

  [[nodiscard]] double mixed(CubeAccess access, std::uint64_t cube) const {
    const GameEnds ends = chance::game_ends(table_, needs_, cube);
    const double dead = win_ * ends.average_win(shares_.mine, shares_.my_backgammons) +
                        (1 - win_) * ends.average_loss(shares_.theirs, shares_.their_backgammons);
    if (access == CubeAccess::none) return dead;
    const Piecewise live = access == CubeAccess::mine
                               ? chance::live_cube_mine(table_, needs_, cube, shares_)
                               : (access == CubeAccess::theirs
                                      ? chance::live_cube_theirs(table_, needs_, cube, shares_)
                                      : centred(ends, cube));
    return situation_.life * live.at(win_) + (1 - situation_.life) * dead;
  }

  /// Both sides may turn it: between the two drop points my chance moves on a straight line.
  [[nodiscard]] Piecewise centred(const GameEnds& ends, std::uint64_t cube) const {
    std::vector<Piecewise::Point> points;
    const double lose = ends.average_loss(shares_.theirs, shares_.their_backgammons);
    const double win = ends.average_win(shares_.mine, shares_.my_backgammons);
    if (cube >= static_cast<std::uint64_t>(needs_.theirs)) {
      points.push_back({0, lose});
    } else {
      points.push_back({0, std::min(ends.lose, lose)});
      points.push_back(
          {chance::live_cube_mine(table_, needs_, 2 * cube, shares_).where(ends.lose), ends.lose});
    }
    if (cube < static_cast<std::uint64_t>(needs_.mine)) {
      points.push_back(
          {chance::live_cube_theirs(table_, needs_, 2 * cube, shares_).where(ends.win), ends.win});
      points.push_back({1, std::max(ends.win, win)});
    } else {
      points.push_back({1, win});
    }
    return Piecewise(std::move(points));
  }

  const CubeSituation& situation_;
  const chance::MatchTable& table_;
  Needs needs_;
  double win_;
  GammonShares shares_;
  GameEnds ends_;
};

template <class Game>
CubeDecision decide_in(const Game& game, const CubeSituation& situation) {
  return decide_between(game.with(situation.access), game.taken(), situation);
}

}  // namespace

double cube_life(const Board& board) {
  const bool bearoff =
      !has_contact(board) && all_home(board, Side::light) && all_home(board, Side::dark);
  return bearoff ? bearoff_cube_life : usual_cube_life;
}

CubeAccess cube_access(const Position& position, Side side) {
  const bool in_use = in_force(position.house, position.match.has_value()).cube &&
                      !(position.match && position.match->crawford);
  if (!in_use) return CubeAccess::none;
  if (!position.cube.holder) return CubeAccess::centred;
  return position.cube.holder == side ? CubeAccess::mine : CubeAccess::theirs;
}

std::string_view name(CubeAction action) {
  switch (action) {
    case CubeAction::none:
      return "none";
    case CubeAction::hold:
      return "hold";
    case CubeAction::offer:
      return "double";
    case CubeAction::too_good:
      break;
  }
  return "too good";
}

std::string_view name(CubeReply reply) {
  switch (reply) {
    case CubeReply::take:
      return "take";
    case CubeReply::drop:
      return "drop";
    case CubeReply::beaver:
      break;
  }
  return "beaver";
}

std::optional<CubeSituation> cube_situation(const Position& position, Side side) {
  CubeSituation situation;
  const HouseRules rules = in_force(position.house, position.match.has_value());
  situation.gammons = rules.gammons;
  situation.jacoby = rules.jacoby;
  situation.beavers = rules.beavers;
  situation.cube = position.cube.value;
  situation.access = cube_access(position, side);
  situation.life = cube_life(position.board);
  // A cube in the middle that stands above 1 (automatic doubles) has not been turned by anybody.
  if (!position.match) return situation;
  if (match_over(*position.match)) return std::nullopt;
  situation.match = chance::needs(*position.match, side);
  if (std::max(situation.match->mine, situation.match->theirs) >
      chance::standard_match_table().size())
    return std::nullopt;
  return situation;
}

CubeDecision decide_between(double hold, double take, const CubeSituation& situation) {
  CubeDecision decision;
  decision.hold = hold;
  decision.take = take;
  if (decision.take > decision.drop) {
    decision.reply = CubeReply::drop;
  } else if (situation.beavers && !situation.match && decision.take < 0) {
    // The other side turns the cube once more and keeps it: everything counts twice again.
    decision.reply = CubeReply::beaver;
    decision.take *= 2;
  }
  decision.offered = std::min(decision.take, decision.drop);
  decision.action_margin = std::abs(decision.offered - decision.hold);
  decision.reply_margin = std::abs(decision.take - decision.drop);
  const bool may_offer =
      situation.access == CubeAccess::centred || situation.access == CubeAccess::mine;
  // A side that wins the match with a single game at this cube gains nothing by a higher one.
  const bool may_gain =
      !situation.match || situation.cube < static_cast<std::uint64_t>(situation.match->mine);
  if (!may_offer || !may_gain) {
    decision.action = CubeAction::none;
  } else if (decision.offered >= decision.hold) {
    decision.action = CubeAction::offer;
  } else {
    decision.action = decision.reply == CubeReply::drop ? CubeAction::too_good : CubeAction::hold;
  }
  return decision;
}

CubeDecision decide(const Chances& chances, const CubeSituation& situation) {
  if (situation.match) return decide_in(Match(chances, situation), situation);
  return decide_in(Points(chances, situation), situation);
}

std::optional<CubeDecision> decide(const Chances& chances, const Position& position) {
  const auto situation = cube_situation(position, *position.turn);
  if (!situation) return std::nullopt;
  return decide(chances, *situation);
}

double cubeful_equity(const Chances& chances, const CubeSituation& situation, bool may_offer) {
  if (may_offer) return decide(chances, situation).equity();
  return situation.match ? Match(chances, situation).with(situation.access)
                         : Points(chances, situation).with(situation.access);
}

CubeSituation passed_on(const CubeSituation& situation) {
  CubeSituation theirs = situation;
  if (situation.access == CubeAccess::mine) theirs.access = CubeAccess::theirs;
  if (situation.access == CubeAccess::theirs) theirs.access = CubeAccess::mine;
  if (situation.match) theirs.match = situation.match->reversed();
  return theirs;
}

}  // namespace pointwright::judge

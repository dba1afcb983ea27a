#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "rules/position.hpp"
#include "rules/ruling.hpp"

namespace pointwright {

/// How a game was won. The number is what it multiplies the cube by where gammons count.
enum class WinKind : std::uint8_t { single = 1, gammon = 2, backgammon = 3 };

/// "single", "gammon" or "backgammon".
std::string_view name(WinKind kind);

/// The end of a game.
struct GameResult {
  Side winner = Side::light;
  WinKind kind = WinKind::single;  ///< as it stands on the board, whether or not it counts
  bool dropped = false;            ///< won because the other side dropped the cube
  std::uint64_t points = 1;        ///< what it is worth under the cube and the house rules
  friend bool operator==(const GameResult&, const GameResult&) = default;
};

/// The side that has borne off all its checkers, if one has.
std::optional<Side> winner_of(const Board& board);

/// How the game on a finished board was won, whatever counts: a gammon if the loser has borne off
/// none, a backgammon if besides it has a checker on the bar or in the winner's home board.
/// Nothing while the game goes on.
std::optional<WinKind> win_kind(const Board& board);

/// What a win of this kind scores with this cube: its value, times 2 for a gammon and 3 for a
/// backgammon where those count (house rule gammons; under the Jacoby rule only once the cube has
/// been turned). Only rules in force count: see `in_force`.
std::uint64_t points_won(WinKind kind, const Cube& cube, const HouseRules& house, bool in_match);

/// The result of a position whose game is over; nothing while it goes on.
std::optional<GameResult> result_of(const Position& position);

/// The result when `loser` drops the cube that was offered in `position`: the other side wins the
/// value that the cube had before the offer. Precondition: an offer by the other side is allowed.
GameResult result_of_drop(const Position& position, Side loser);

/// Why a finished game is worth what it is, as a learner can check it on the board and the cube.
/// Precondition: `result` is the result of `position`, or of a drop in it.
std::string explain(const GameResult& result, const Position& position,
                    const SideNames& names = {});

/// The score of a match that begins.
/// Precondition: 1 <= length <= longest_match.
MatchScore new_match(int length);

/// Whether a side has reached the length of the match.
bool match_over(const MatchScore& score);

/// The side that has won the match, if one has.
std::optional<Side> match_winner(const MatchScore& score);

/// The score for the next game, after `winner` won `points` in this one. Points beyond the length
/// of the match are not counted. The next game is the Crawford game when this one brought a side
/// within one point of the match for the first time; so there is at most one, and in a match to 1
/// there is none.
/// Precondition: the match is not over, and `score.crawford` is right for the game just played.
MatchScore after_game(MatchScore score, Side winner, std::uint64_t points);

/// Why the score is what it is after a game, and what that means for the next game's cube.
std::string explain(const MatchScore& before, Side winner, std::uint64_t points,
                    const SideNames& names = {});

}  // namespace pointwright

#include "rules/score.hpp"

#include <algorithm>

namespace pointwright {
namespace {

constexpr Place first_far_point = 19;  // the winner's home board, as the loser counts

bool is_behind(const Camp& loser) {
  return std::any_of(loser.begin() + first_far_point, loser.end(),
                     [](std::uint8_t checkers) { return checkers > 0; });
}

std::string points_text(std::uint64_t points) {
  return std::to_string(points) + (points == 1 ? " point" : " points");
}

/// "on the bar" or "on light's 3-point, in light's home board": the loser's rearmost checker.
std::string straggler(const Board& board, Side loser, const SideNames& names) {
  const Place place = rearmost(board, loser);
  if (place == bar_place) return "on the bar";
  const std::string& winner = names[opponent(loser)];
  return "on " + winner + "'s " + to_text(mirrored(place)) + "-point, in " + winner +
         "'s home board";
}

std::string how_it_was_won(WinKind kind, const Board& board, Side winner, const SideNames& names) {
  const Side loser = opponent(winner);
  const int off = board.count(loser, off_place);
  std::string text = names[winner] + " has borne off all fifteen checkers. ";
  switch (kind) {
    case WinKind::single:
      text += names[loser] + " has borne off " + std::to_string(off) + ", so it is a single game";
      break;
    case WinKind::gammon:
      text += names[loser] + " has borne off none, and none of its checkers is on the bar or in " +
              names[winner] + "'s home board: a gammon";
      break;
    case WinKind::backgammon:
      text += names[loser] + " has borne off none and still has a checker " +
              straggler(board, loser, names) + ": a backgammon";
      break;
  }
  return text;
}

}  // namespace

std::string_view name(WinKind kind) {
  switch (kind) {
    case WinKind::gammon:
      return "gammon";
    case WinKind::backgammon:
      return "backgammon";
    case WinKind::single:
      break;
  }
  return "single";
}

std::optional<Side> winner_of(const Board& board) {
  for (const Side side : {Side::light, Side::dark})
    if (has_won(board, side)) return side;
  return std::nullopt;
}

std::optional<WinKind> win_kind(const Board& board) {
  const std::optional<Side> winner = winner_of(board);
  if (!winner) return std::nullopt;
  const Camp& loser = board.of(opponent(*winner));
  if (loser[off_place] > 0) return WinKind::single;
  return is_behind(loser) ? WinKind::backgammon : WinKind::gammon;
}

std::uint64_t points_won(WinKind kind, const Cube& cube, const HouseRules& house, bool in_match) {
  const HouseRules rules = in_force(house, in_match);
  const bool turned = cube.holder.has_value();
  const bool counts = rules.gammons && (!rules.jacoby || turned);
  return counts ? cube.value * static_cast<std::uint64_t>(kind) : cube.value;
}

std::optional<GameResult> result_of(const Position& position) {
  const std::optional<Side> winner = winner_of(position.board);
  const std::optional<WinKind> kind = win_kind(position.board);
  if (!winner || !kind) return std::nullopt;
  return GameResult{*winner, *kind, false,
                    points_won(*kind, position.cube, position.house, position.match.has_value())};
}

GameResult result_of_drop(const Position& position, Side loser) {
  return {opponent(loser), WinKind::single, true, position.cube.value};
}

std::string explain(const GameResult& result, const Position& position, const SideNames& names) {
  const std::string cube = std::to_string(position.cube.value);
  if (result.dropped)
    return names[opponent(result.winner)] + " dropped the cube, so " + names[result.winner] +
           " wins " + points_text(result.points) +
           ", the value that the cube had before that offer.";
  std::string text = how_it_was_won(result.kind, position.board, result.winner, names);
  const HouseRules rules = in_force(position.house, position.match.has_value());
  const auto times = static_cast<std::uint64_t>(result.kind);
  if (times > 1 && !rules.gammons)
    text += ". By the house rule no-gammons it counts once";
  else if (times > 1 && result.points == position.cube.value)
    text += ". By the Jacoby rule it counts once, since the cube has not been turned";
  else if (times > 1)
    text += ", which counts " + std::string(times == 2 ? "twice" : "three times");
  if (times > 1 && position.house.jacoby && !rules.jacoby && rules.gammons && position.match)
    text += " (the Jacoby rule is not used in a match)";
  text += ". ";
  if (!position.house.cube)
    text += "Played without the cube, it is worth ";
  else
    text += "With the cube at " + cube + " it is worth ";
  return text + points_text(result.points) + ".";
}

MatchScore new_match(int length) {
  MatchScore score;
  score.length = length;
  return score;
}

std::optional<Side> match_winner(const MatchScore& score) {
  for (const Side side : {Side::light, Side::dark})
    if (score.points[index(side)] >= score.length) return side;
  return std::nullopt;
}

bool match_over(const MatchScore& score) {
  return match_winner(score).has_value();
}

MatchScore after_game(MatchScore score, Side winner, std::uint64_t points) {
  const int match_point = score.length - 1;
  const bool was_there = std::max(score.points[0], score.points[1]) >= match_point;
  int& total = score.points[index(winner)];
  const auto needed = static_cast<std::uint64_t>(score.length - total);
  total += static_cast<int>(std::min(points, needed));
  score.crawford = !was_there && total == match_point;
  return score;
}

std::string explain(const MatchScore& before, Side winner, std::uint64_t points,
                    const SideNames& names) {
  const MatchScore score = after_game(before, winner, points);
  const std::string& who = names[winner];
  const int had = before.points[index(winner)];
  const int has = score.points[index(winner)];
  std::string text =
      who + " had " + std::to_string(had) + " and wins " + points_text(points) + ", which makes ";
  if (match_over(score)) {
    const bool beyond = points > static_cast<std::uint64_t>(before.length - had);
    return text + (beyond ? "more than " : "") + std::to_string(has) + ": " + who +
           " wins the match to " + std::to_string(score.length) + "." +
           (beyond ? " Points beyond the length of the match are not counted." : "");
  }
  text += std::to_string(has) + ". ";
  const int match_point = score.length - 1;
  if (score.crawford)
    text += who +
            " is within one point of the match for the first time, so the next game is the "
            "Crawford game: nobody doubles in it.";
  else if (std::max(score.points[0], score.points[1]) == match_point)
    text += "The Crawford game has been played, so the cube is in use again.";
  else
    text += "Neither side is within one point of the match, so the cube is in use.";
  return text;
}

}  // namespace pointwright

#include "chance/cube_sums.hpp"

#include <vector>

#include "chance/blackboard.hpp"

namespace pointwright::chance {
namespace {

std::string of_needs(std::int64_t mine, std::int64_t theirs) {
  if (mine <= 0) return "the match is won";
  if (theirs <= 0) return "the match is lost";
  return "the score is " + std::to_string(mine) + " needed against " + std::to_string(theirs);
}

/// A share of games in per cent, with a decimal only where it has one.
std::string share_text(double share) {
  const long part = tenths(share);
  return part % 10 == 0 ? std::to_string(part / 10) + "%" : percent_of_tenths(part);
}

/// One way in which a taken game may end.
struct End {
  std::string_view name;
  double share = 0;   ///< of the games won, or lost
  int times = 1;      ///< the points that it costs, in units of the cube
  double chance = 0;  ///< in the match
};

/// "the match is won, 100.0%", with the average written out where gammons change it. `sign` is 1
/// for games that the taker wins and -1 for games that it loses.
std::string ends_text(const std::vector<End>& ends, double average, std::int64_t cube, int sign,
                      const Needs& taker) {
  const auto leads_to = [&](const End& end) {
    const std::int64_t points = end.times * cube;
    return (sign > 0 ? of_needs(taker.mine - points, taker.theirs)
                     : of_needs(taker.mine, taker.theirs - points)) +
           ", " + percent_text(end.chance);
  };
  std::string text = leads_to(ends.front());
  bool averaged = false;
  for (std::size_t i = 1; i < ends.size(); ++i) {
    const End& end = ends[i];
    if (end.share <= 0 || tenths(end.chance) == tenths(ends.front().chance)) continue;
    text += std::string("; with ") + std::string(end.name) + ", in " + share_text(end.share) +
            " of these games, " + leads_to(end);
    averaged = true;
  }
  if (averaged) text += "; on average " + percent_text(average);
  return text;
}

std::string fraction(const std::string& risk, const std::string& gain) {
  return risk + " / (" + risk + " + " + gain + ")";
}

std::string money(double points) {
  return points_of_hundredths(hundredths(points));
}

/// "2 x 1.25 = 2.50", or "2" where every game is a single one.
std::string twice(double value) {
  return hundredths(value) == 100
             ? "2"
             : "2 x " + money(value) + " = " + points_of_hundredths(2 * hundredths(value));
}

}  // namespace

std::string take_point_sum(const ScoreDecision& decision, const Needs& taker,
                           const SideNames& names, Side taker_side) {
  const auto cube = static_cast<std::int64_t>(decision.cube);
  const std::string& who = names[taker_side];
  const GammonShares& shares = decision.shares;
  const GameEnds& ends = decision.doubled;
  const std::vector<End> wins{{"a single game", 1, 1, ends.win},
                              {"a gammon", shares.mine, 2, ends.win_gammon},
                              {"a backgammon", shares.my_backgammons, 3, ends.win_backgammon}};
  const std::vector<End> losses{
      {"a single game", 1, 1, ends.lose},
      {"a gammon", shares.theirs, 2, ends.lose_gammon},
      {"a backgammon", shares.their_backgammons, 3, ends.lose_backgammon}};
  const std::string risk =
      percent_of_tenths(tenths(decision.drop) - tenths(decision.take_and_lose));
  const std::string gain = percent_of_tenths(tenths(decision.take_and_win) - tenths(decision.drop));
  std::string sum =
      who + " drops: " + of_needs(taker.mine, taker.theirs - cube) + ", " +
      percent_text(decision.drop) +
      ". Takes and wins: " + ends_text(wins, decision.take_and_win, 2 * cube, 1, taker) +
      ". Takes and loses: " + ends_text(losses, decision.take_and_lose, 2 * cube, -1, taker) +
      ". The take risks " + risk + " to gain " + gain + ": it needs " + fraction(risk, gain) +
      " = " + percent_text(decision.dead_take_point) + " of the games";
  if (decision.cube_is_dead)
    sum += "; the cube is then dead for " + who + ".";
  else
    sum += ", or " + percent_text(decision.live_take_point) + " if " + who +
           " can use the cube to the full.";
  return sum;
}

std::string double_point_sum(const ScoreDecision& decision, const SideNames& names,
                             Side taker_side) {
  const std::string& who = names[opponent(taker_side)];
  const GammonShares& shares = decision.shares;
  // The taker's numbers, seen by the side that doubles.
  const auto won = [&](const GameEnds& ends) {
    return 1 - ends.average_loss(shares.theirs, shares.their_backgammons);
  };
  const auto lost = [&](const GameEnds& ends) {
    return 1 - ends.average_win(shares.mine, shares.my_backgammons);
  };
  const long win_now = tenths(won(decision.now));
  const long win_then = tenths(won(decision.doubled));
  const long lose_now = tenths(lost(decision.now));
  const long lose_then = tenths(lost(decision.doubled));
  const std::string risk = percent_of_tenths(lose_now - lose_then);
  const std::string gain = percent_of_tenths(win_then - win_now);
  const auto cube = [](std::uint64_t value) { return " at " + std::to_string(value); };
  return who + " wins the game" + cube(decision.cube) + ": " + percent_of_tenths(win_now) +
         " of the matches" + (shares.any() ? " on average" : "") +
         "; loses it: " + percent_of_tenths(lose_now) + ". Wins" + cube(2 * decision.cube) + ": " +
         percent_of_tenths(win_then) + "; loses: " + percent_of_tenths(lose_then) +
         ". The double risks " + risk + " to gain " + gain +
         ": if nobody turns the cube again, it gains from " + fraction(risk, gain) + " = " +
         percent_text(decision.double_point) + " of the games on.";
}

std::string gammon_value_sum(const GameEnds& ends, std::uint64_t cube, const SideNames& names,
                             Side side) {
  const std::string& who = names[side];
  const std::string extra = percent_of_tenths(tenths(ends.win_gammon) - tenths(ends.win));
  const std::string swing = percent_of_tenths(tenths(ends.win) - tenths(ends.lose));
  return "With the cube at " + std::to_string(cube) + ", a single win takes " + who + " to " +
         percent_text(ends.win) + ", a gammon to " + percent_text(ends.win_gammon) +
         " and a single loss to " + percent_text(ends.lose) + ": a gammon adds " + extra +
         " to a swing of " + swing + ", " + extra + " / " + swing + " = " +
         points_of_hundredths(hundredths(gammon_value(ends))) + ".";
}

std::string take_point_sum(const MoneyDecision& decision, const SideNames& names, Side taker_side) {
  const std::string& who = names[taker_side];
  const GameValues& values = decision.taker;
  const long lost = 2 * hundredths(values.loss);
  const long won = 2 * hundredths(values.win);
  const std::string risk = points_of_hundredths(lost - 100);
  const std::string gain = points_of_hundredths(won + 100);
  return who + " drops and loses 1. Takes and wins " + twice(values.win) + "; takes and loses " +
         twice(values.loss) + ". The take risks " + risk + " to gain " + gain + ": it needs " +
         fraction(risk, gain) + " = " + percent_text(decision.dead_take_point) +
         " of the games, or " + percent_text(decision.live_take_point) + " if " + who +
         " can use the cube to the full.";
}

std::string double_point_sum(const MoneyDecision& decision, const SideNames& names,
                             Side taker_side) {
  const std::string& who = names[opponent(taker_side)];
  const GameValues values{decision.taker.loss, decision.taker.win};
  const GameValues before = decision.jacoby ? GameValues{} : values;
  const std::string risk =
      points_of_hundredths(2 * hundredths(values.loss) - hundredths(before.loss));
  const std::string gain =
      points_of_hundredths(2 * hundredths(values.win) - hundredths(before.win));
  return who + " wins " + money(before.win) + " and loses " + money(before.loss) +
         (decision.jacoby && (values.win > 1 || values.loss > 1)
              ? " while gammons do not count (the Jacoby rule)"
              : "") +
         "; after the double it wins " + twice(values.win) + " and loses " + twice(values.loss) +
         ". The double risks " + risk + " to gain " + gain +
         ": if nobody turns the cube again, it gains from " + fraction(risk, gain) + " = " +
         percent_text(decision.dead_double_point) + " of the games on.";
}

}  // namespace pointwright::chance

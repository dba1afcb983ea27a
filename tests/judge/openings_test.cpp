#include <gtest/gtest.h>

#include <algorithm>

#include "judge/search.hpp"
#include "judge/shipped.hpp"
#include "rules/notation.hpp"
#include "rules/ruling.hpp"

/// The published opening plays, looked at one roll ahead.
/// Source: Kit Woolsey, "What are the best ways to play the opening rolls?", 19 March 1995, in the
/// Backgammon FAQ (M. Damish).
namespace pointwright::judge {
namespace {

/// What a play of an opening roll is worth, one roll ahead.
double worth(Roll roll, std::string_view text) {
  Position start;
  start.board = starting_board();
  start.turn = Side::light;
  start.roll = roll;
  const Ruling ruling = rule_on(start, *read_play(text));
  EXPECT_TRUE(ruling.allowed) << text;
  Search search(shipped_evaluator());
  return -static_cast<double>(search.worth(ruling.after, Side::dark, 1).equity);
}

TEST(Openings, BestPlaysAreAmongThePublishedOnes) {
  const struct {
    Roll roll;
    std::vector<const char*> plays;
  } published[] = {{Roll(3, 1), {"8/5 6/5"}},
                   {Roll(4, 2), {"8/4 6/4"}},
                   {Roll(6, 1), {"13/7 8/7"}},
                   {Roll(5, 3), {"8/3 6/3"}},
                   {Roll(6, 5), {"24/13"}},
                   {Roll(2, 1), {"13/11 6/5", "24/23 13/11"}},
                   {Roll(4, 1), {"24/23 13/9"}},
                   {Roll(5, 1), {"24/23 13/8"}},
                   {Roll(3, 2), {"24/21 13/11", "13/11 13/10"}},
                   {Roll(5, 2), {"24/22 13/8", "13/11 13/8"}},
                   {Roll(6, 2), {"24/18 13/11"}},
                   {Roll(4, 3), {"13/10 13/9", "24/20 13/10", "24/21 13/9"}}};
  Search search(shipped_evaluator());
  for (const auto& opening : published) {
    const auto ranked = search.rank(starting_board(), Side::light, opening.roll, 1);
    const std::string best = to_text(ranked.front().play.play);
    EXPECT_NE(std::ranges::count(opening.plays, best), 0) << to_text(opening.roll) << ": " << best;
  }
}

TEST(Openings, PlaysCalledWorseAreWorse) {
  const struct {
    Roll roll;
    const char* better;
    const char* worse;
    double least;  ///< "clearly", "awful" and "far" as costs of our own choice
  } judged[] = {
      {Roll(4, 1), "24/23 13/9", "13/9 6/5", 0},  {Roll(5, 1), "24/23 13/8", "24/18", 0.02},
      {Roll(6, 1), "13/7 8/7", "13/7 6/5", 0.1},  {Roll(5, 2), "24/22 13/8", "13/8 6/4", 0.02},
      {Roll(6, 2), "24/18 13/11", "24/16", 0},    {Roll(6, 2), "24/16", "13/5", 0},
      {Roll(5, 3), "8/3 6/3", "13/10 13/8", 0.05}};
  for (const auto& pair : judged) {
    EXPECT_GT(worth(pair.roll, pair.better) - worth(pair.roll, pair.worse), pair.least)
        << pair.better << " " << pair.worse;
  }
}

}  // namespace
}  // namespace pointwright::judge

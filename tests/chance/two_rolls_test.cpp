#include "chance/two_rolls.hpp"

#include <gtest/gtest.h>

#include "rules/position.hpp"

namespace pointwright::chance {
namespace {

Board board(std::string_view line) {
  return read_position(line)->board;
}

Event hit() {
  return read_query("hit")->event;
}

TEST(NowOrNext, IsTheSumOfBothChancesWhenTheReplyCannotMatter) {
  // Dark's only checker stands behind six points in a row and cannot move.
  const Board closed = board("light 12x1 7x2 6x2 5x2 4x2 3x2 2x2; dark 24x1");
  const ThreeRollChance chance = now_or_next(closed, Side::light, hit());
  EXPECT_EQ(chance.least, chance.most);
  EXPECT_GT(chance.least, 0);
  EXPECT_LE(chance.most, ThreeRollChance::whole);
}

TEST(NowOrNext, IsCertainWhenEveryRollHits) {
  const Board sure = board("light 7x1 6x1 5x1 4x1 3x1 2x1; dark 24x1");
  const ThreeRollChance chance = now_or_next(sure, Side::light, hit());
  EXPECT_EQ(chance.least, ThreeRollChance::whole);
}

/// The same number by plain recursion in floating point, without memory or integers.
double simple_now_or_next(const Board& start, const Event& event, bool pips) {
  const auto can = [&](const Board& from) {
    double ways = 0;
    for (int a = 1; a <= 6; ++a) {
      for (int b = 1; b <= 6; ++b) {
        const auto plays = legal_plays(from, Side::light, Roll(a, b));
        for (const LegalPlay& play : plays) {
          if (!event.holds({from, Side::light, play.play, play.after, 1})) continue;
          ways += 1;
          break;
        }
      }
    }
    return ways / 36;
  };
  const auto reply = [&](const Board& from) {
    double sum = 0;
    for (int a = 1; a <= 6; ++a) {
      for (int b = 1; b <= 6; ++b) {
        const auto plays = legal_plays(from, Side::dark, Roll(a, b));
        if (plays.empty()) {
          sum += can(from);
          continue;
        }
        double worst = 1;
        for (const LegalPlay& play : plays)
          worst = std::min(worst, has_won(play.after, Side::dark) ? 0.0 : can(play.after));
        const LegalPlay& chosen = plays[best_by_pips(from, Side::dark, plays)];
        sum += pips ? (has_won(chosen.after, Side::dark) ? 0.0 : can(chosen.after)) : worst;
      }
    }
    return sum / 36;
  };
  double total = 0;
  for (int a = 1; a <= 6; ++a) {
    for (int b = 1; b <= 6; ++b) {
      double best = -1;
      const auto plays = legal_plays(start, Side::light, Roll(a, b));
      if (plays.empty()) best = reply(start);
      for (const LegalPlay& play : plays) {
        best = event.holds({start, Side::light, play.play, play.after, 1})
                   ? 1.0
                   : std::max(best, reply(play.after));
        if (best == 1.0) break;
      }
      total += best;
    }
  }
  return total / 36;
}

TEST(NowOrNext, AgreesWithPlainRecursion) {
  for (const char* line : {"light 8x1; dark 20x1 6x1", "light 13x1 6x1; dark 22x1",
                           "light barx1; dark 6x2 5x2 4x2 24x1", "light 3x1; dark 23x1 24x1"}) {
    const Board start = board(line);
    const double any =
        static_cast<double>(now_or_next(start, Side::light, hit()).least) / ThreeRollChance::whole;
    const double by_pips =
        static_cast<double>(now_or_next(start, Side::light, hit(), best_by_pips).least) /
        ThreeRollChance::whole;
    EXPECT_NEAR(any, simple_now_or_next(start, hit(), false), 1e-12) << line;
    EXPECT_NEAR(by_pips, simple_now_or_next(start, hit(), true), 1e-12) << line;
  }
}

}  // namespace
}  // namespace pointwright::chance

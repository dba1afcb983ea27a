// A turn in the making against the generator of legal plays: following every journey that the guide
// offers leads to the legal results and to no other board.
#include "web/turn.hpp"

#include <gtest/gtest.h>

#include <random>
#include <set>

#include "rules/notation.hpp"
#include "rules/rulebook.hpp"
#include "tests/rules/random_positions.hpp"
#include "tests/support/scale.hpp"

namespace pointwright::web {
namespace {

using Camps = std::array<Camp, 2>;

Roll random_roll(std::mt19937_64& random) {
  return {static_cast<int>(random() % 6) + 1, static_cast<int>(random() % 6) + 1};
}

/// Every board at which the guide says that a turn is complete, by its journeys alone.
void follow(const TurnGuide& guide, const Board& now, Side side, std::set<Camps>& met,
            std::set<Camps>& complete) {
  if (!met.insert(now.camps).second) return;
  EXPECT_TRUE(guide.is_on_the_way(now));
  if (guide.is_complete(now)) complete.insert(now.camps);
  for (const Journeying& journey : guide.journeys(now)) {
    Board next = now;
    EXPECT_EQ(journey.steps.front().from, journey.from);
    EXPECT_EQ(journey.steps.back().to, journey.to);
    for (const Move& step : journey.steps)
      EXPECT_EQ(make_move(next, side, step.from, step.to), step.hit);
    follow(guide, next, side, met, complete);
  }
}

TEST(TurnGuide, JourneysLeadToTheLegalResultsAndNoOthers) {
  std::mt19937_64 random(20);
  for (int i = 0; i < testing_support::scaled(1500); ++i) {
    const Board board = testing::random_board(random);
    if (has_won(board, Side::light) || has_won(board, Side::dark)) continue;
    const Side side = random() % 2 == 0 ? Side::light : Side::dark;
    const Roll roll = random_roll(random);
    std::set<Camps> expected;
    for (const LegalPlay& legal : legal_plays(board, side, roll))
      expected.insert(legal.after.camps);
    if (expected.empty()) expected.insert(board.camps);
    const TurnGuide guide(board, side, roll);
    std::set<Camps> met;
    std::set<Camps> complete;
    follow(guide, board, side, met, complete);
    ASSERT_EQ(complete, expected) << to_text(board) << " " << to_text(roll);
  }
}

TEST(TurnGuide, CountsTheDiceThatAreLeft) {
  const Board start = starting_board();
  const TurnGuide guide(start, Side::light, Roll(3, 1));
  EXPECT_EQ(guide.dice_left(start), (std::vector<int>{3, 1}));
  Board now = start;
  make_move(now, Side::light, 8, 5);
  EXPECT_EQ(guide.dice_left(now), std::vector<int>{1});
  EXPECT_FALSE(guide.is_complete(now));
  make_move(now, Side::light, 6, 5);
  EXPECT_TRUE(guide.dice_left(now).empty());
  EXPECT_TRUE(guide.is_complete(now));
}

// The rule book's examples of the duty to play: what they refuse can also not be begun, unless the
// moves can be completed.
TEST(TurnGuide, DoesNotOfferAMoveThatWouldWasteADie) {
  for (const char* id : {"both-dice", "larger-die"}) {
    const Rule* rule = find_rule(id);
    ASSERT_NE(rule, nullptr);
    const auto position = read_position(rule->example);
    const auto attempt = read_play(rule->attempt);
    ASSERT_TRUE(position.ok() && attempt.ok());
    const TurnGuide guide(position->board, *position->turn, *position->roll);
    const Journey& refused = attempt->journeys.front();
    for (const Journeying& journey : guide.journeys(position->board)) {
      EXPECT_FALSE(journey.from == refused.stops.front() && journey.to == refused.stops.back())
          << id;
    }
  }
}

TEST(TurnGuide, ABoardAstrayIsNotOnTheWay) {
  const TurnGuide guide(starting_board(), Side::light, Roll(6, 5));
  Board now = starting_board();
  make_move(now, Side::light, 24, 14);
  EXPECT_FALSE(guide.is_on_the_way(now));
  EXPECT_TRUE(guide.journeys(now).empty());
  EXPECT_TRUE(guide.dice_left(now).empty());
}

}  // namespace
}  // namespace pointwright::web

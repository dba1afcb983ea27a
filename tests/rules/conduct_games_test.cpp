// Whole matches and games through the table with random dice, plays and cube actions: what always
// holds is checked at every step.

#include <gtest/gtest.h>

#include <array>
#include <random>

#include "rules/conduct.hpp"
#include "rules/setup.hpp"
#include "tests/rules/table_helpers.hpp"

namespace pointwright {
namespace {

class Players {
 public:
  explicit Players(std::uint64_t seed) : random_(seed) {}

  int below(int n) { return static_cast<int>(random_() % static_cast<unsigned>(n)); }
  int die() { return 1 + below(6); }
  bool one_in(int n) { return below(n) == 0; }

  /// Makes stray moves, takes them back, and expects the very same table.
  void fidget(const Table& table) {
    Table moved = table;
    std::vector<Table> before;
    for (int i = 0; i < 6; ++i) {
      const TableEvent next =
          move_checker(moved, static_cast<Place>(below(27)), static_cast<Place>(below(27)));
      if (!next) continue;
      before.push_back(moved);
      moved = *next;
    }
    ASSERT_EQ(must(take_back_all(moved)), must(take_back_all(table)));
    for (; !before.empty(); before.pop_back()) {
      moved = must(take_back(moved));
      ASSERT_EQ(moved, before.back());
    }
    ASSERT_EQ(moved, table);
  }

  Table play(const Table& table) {
    const Side side = *table.position.turn;
    const auto plays = legal_plays(table.position.board, side, *table.position.roll);
    if (plays.empty()) return must(lift_dice(table, side));
    const LegalPlay& chosen =
        plays[static_cast<std::size_t>(below(static_cast<int>(plays.size())))];
    const Table moved = make_play(table, chosen.play);
    EXPECT_EQ(moved.board, chosen.after);
    return must(lift_dice(moved, side));
  }

  Table step(const Table& table) {
    const Side side = table.position.turn.value_or(Side::light);
    const Side other = opponent(side);
    switch (table.phase) {
      case Phase::opening:
        return must(throw_opening(table, die(), die()));
      case Phase::to_roll:
        if (one_in(12)) {
          const TableEvent offered = offer_cube(table, side);
          EXPECT_EQ(offered.ok(), may_offer(table.position, side).allowed);
          if (offered) return *offered;
        }
        return must(throw_dice(table, side, {die(), die()}));
      case Phase::offered: {
        const TableEvent answer = beaver(table, other);
        if (answer && one_in(3)) return *answer;
        return one_in(4) ? must(drop_cube(table, other)) : must(take_cube(table, other));
      }
      case Phase::beavered:
        return one_in(4) ? must(drop_cube(table, side)) : must(take_cube(table, side));
      case Phase::to_play: {
        if (one_in(10)) fidget(table);
        const TableEvent early = throw_dice(table, other, {die(), die()});
        const bool stands = table.position.house.premature_roll_stands && !table.early_roll;
        EXPECT_EQ(early.ok(), stands);
        if (early && one_in(5)) return *early;
        return play(table);
      }
      case Phase::over:
        break;
    }
    ADD_FAILURE() << "no step from a game that is over";
    return table;
  }

 private:
  std::mt19937_64 random_;
};

void expect_sound(const Table& table) {
  for (const Side side : {Side::light, Side::dark}) {
    int checkers = 0;
    for (const std::uint8_t count : table.board.of(side)) checkers += count;
    ASSERT_EQ(checkers, checkers_per_side);
  }
  const auto line = to_text(table.position);
  const auto read = read_position(line);
  ASSERT_TRUE(read.ok()) << line;
  ASSERT_EQ(*read, table.position) << line;
  ASSERT_EQ(table.phase == Phase::over, table.result.has_value());
  ASSERT_EQ(table.phase == Phase::to_play, table.position.roll.has_value());
  ASSERT_EQ(table.phase == Phase::opening || table.phase == Phase::over,
            !table.position.turn.has_value());
  if (table.phase != Phase::to_play) {
    ASSERT_EQ(table.board, table.position.board);
    ASSERT_FALSE(table.early_roll);
  }
}

/// Plays one game to its end.
Table play_out(Table table, Players& players) {
  for (int steps = 0; table.phase != Phase::over; ++steps) {
    if (steps > 20000) {
      ADD_FAILURE() << "no end in sight";
      return table;
    }
    table = players.step(table);
    expect_sound(table);
    if (testing::Test::HasFatalFailure()) return table;
  }
  return table;
}

void expect_fair(const Table& over) {
  const GameResult& result = *over.result;
  const Cube& cube = over.position.cube;
  if (result.dropped) {
    EXPECT_TRUE(result.points == cube.value || result.points == 2 * cube.value);
    EXPECT_EQ(winner_of(over.board), std::nullopt);
  } else {
    EXPECT_EQ(winner_of(over.board), result.winner);
    EXPECT_TRUE(result.points == cube.value || result.points == 2 * cube.value ||
                result.points == 3 * cube.value);
  }
  EXPECT_FALSE(explain(result, over.position).empty());
}

TEST(Matches, CrawfordAtMostOnceAndAlwaysWhenOneAway) {
  Players players(20250101);
  int games = 0;
  for (int i = 0; i < 300; ++i) {
    HouseRules house;
    for (const HouseRule& rule : house_rules()) house.*rule.member = players.one_in(2);
    const int length = 1 + players.below(11);
    Table table = new_game(house, new_match(length));
    int crawford_games = 0;
    bool one_away_before = false;  // after some game, before the match was over
    for (;;) {
      ++games;
      const bool crawford = table.position.match->crawford;
      crawford_games += crawford;
      const Table over = play_out(table, players);
      if (HasFatalFailure()) return;
      expect_fair(over);
      if (crawford) EXPECT_EQ(over.position.cube, Cube{}) << "nobody doubled";
      const MatchScore score =
          after_game(*over.position.match, over.result->winner, over.result->points);
      EXPECT_LE(score.points[0], length);
      EXPECT_LE(score.points[1], length);
      EXPECT_EQ(score.points[index(opponent(over.result->winner))],
                table.position.match->points[index(opponent(over.result->winner))]);
      const TableEvent next = next_game(over);
      EXPECT_EQ(next.ok(), !match_over(score));
      if (!next) break;
      EXPECT_EQ(next->position.match, score);
      one_away_before |= score.points[0] == length - 1 || score.points[1] == length - 1;
      table = *next;
    }
    EXPECT_EQ(crawford_games, one_away_before ? 1 : 0);
  }
  EXPECT_GT(games, 1000);
}

TEST(Games, PlayedForPointsUnderEveryChoiceOfHouseRules) {
  Players players(20250102);
  std::array<int, 4> kinds{};
  std::array<int, 2> winners{};
  int openings_tied = 0;
  for (unsigned bits = 0; bits < 64; ++bits) {
    HouseRules house;
    unsigned bit = 1;
    for (const HouseRule& rule : house_rules()) {
      house.*rule.member = (bits & bit) != 0;
      bit <<= 1;
    }
    for (int i = 0; i < 24; ++i) {
      const Table over = play_out(new_game(house), players);
      if (HasFatalFailure()) return;
      expect_fair(over);
      const Cube& cube = over.position.cube;
      if (!house.cube) EXPECT_EQ(cube, Cube{});
      if (!house.gammons && !over.result->dropped) EXPECT_EQ(over.result->points, cube.value);
      if (house.cube && house.jacoby && !cube.holder && !over.result->dropped)
        EXPECT_EQ(over.result->points, cube.value);
      if (house.cube && house.automatic_doubles && !cube.holder)
        EXPECT_EQ(cube.value, std::uint64_t{1} << over.ties);
      openings_tied += over.ties;
      ++kinds[over.result->dropped ? 0 : static_cast<std::size_t>(over.result->kind)];
      ++winners[index(over.result->winner)];
      EXPECT_EQ(must(next_game(over)), new_game(house));
    }
  }
  // Every kind of end has been seen, for both sides.
  for (const int count : kinds) EXPECT_GT(count, 0);
  for (const int count : winners) EXPECT_GT(count, 500);
  EXPECT_GT(openings_tied, 100);
}

}  // namespace
}  // namespace pointwright

#include "finder/find.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <set>
#include <string>

#include "finder/games.hpp"
#include "finder/near.hpp"
#include "finder/proof.hpp"
#include "judge/shipped.hpp"
#include "lesson/lesson.hpp"
#include "tests/reference/reference.hpp"

namespace pointwright::finder {
namespace {

struct Line {
  bool some = true;
  std::string query;
};

std::vector<Line> lines() {
  std::vector<Line> lines;
  std::ifstream file(POINTWRIGHT_SOURCE_DIR "/tests/finder/queries.txt");
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#') continue;
    const std::size_t cut = line.find(" | ");
    lines.push_back({line.substr(0, cut) == "some", line.substr(cut + 3)});
  }
  return lines;
}

Query query(std::string_view text) {
  auto read = read_query(text);
  EXPECT_TRUE(read.ok()) << text << ": " << (read.ok() ? "" : read.error().front().reason);
  return read.value();
}

Wanted wanted(const Query& query, int apart = 2) {
  return {.query = query, .side = Side::light, .roll = std::nullopt, .apart = apart};
}

bool holds(const Query& query, const Finding& finding, Side side = Side::light) {
  Facts facts(side);
  facts.look_at(finding.board, finding.roll);
  return query.truth(facts) == Truth::yes;
}

std::vector<Found> found_by(const Query& query, const Options& options, Report* report = nullptr) {
  std::vector<Found> all;
  const Wanted want = wanted(query);
  const Report end = find(want, options, [&](const Found& found) {
    all.push_back(found);
    return true;
  });
  if (report != nullptr) *report = end;
  return all;
}

/// The legal results of a roll by the slow, simple generator are those of the fast one.
void expect_reference_agrees(const Finding& finding, Side side) {
  if (!finding.roll) return;
  const auto slow = reference::results(finding.board, side, *finding.roll);
  reference::Boards fast;
  for (const LegalPlay& play : legal_plays(finding.board, side, *finding.roll))
    fast.insert(play.after);
  EXPECT_EQ(slow, fast) << to_text(finding.board) << " " << to_text(*finding.roll);
}

/// A lesson made of these blocks is proved.
void expect_proved(const std::string& blocks) {
  lesson::Host host;
  host.read = [&](const std::string&) -> Result<std::string, lesson::ReadFailure> {
    return "---\ntitle: Found\n---\n" + blocks;
  };
  const auto compilation = lesson::compile_lesson(host, "found.md");
  EXPECT_EQ(compilation.outcome(), lesson::Outcome::proved) << blocks;
  EXPECT_EQ(compilation.claims.proved, compilation.claims.written);
}

TEST(Find, AnswersEveryQueryOfTheTable) {
  int queries = 0;
  for (const Line& line : lines()) {
    ++queries;
    const Query q = query(line.query);
    Options options;
    options.count = 2;
    options.effort.work_to_choose = 2'000;
    if (!line.some) {
      options.effort.work_to_find = 100'000;
      options.work_to_enumerate = 1'500'000;
    }
    Report report;
    const auto all = found_by(q, options, &report);
    if (!line.some) {
      EXPECT_TRUE(all.empty()) << line.query;
      EXPECT_TRUE(report.end == End::none_exists || report.end == End::none_that_small)
          << line.query;
      continue;
    }
    EXPECT_FALSE(all.empty()) << line.query;
    std::string blocks;
    for (const Found& found : all) {
      EXPECT_TRUE(holds(q, found.finding)) << line.query;
      expect_reference_agrees(found.finding, Side::light);
      const Shown shown = show(q, found.finding, Side::light);
      EXPECT_FALSE(shown.sentences.empty());
      const auto again = read_position(to_text(shown.position));
      ASSERT_TRUE(again.ok());
      EXPECT_EQ(*again, shown.position);
      blocks += "\n" + as_blocks(shown, name_for(q) + "-" + std::to_string(blocks.size())) + "\n";
    }
    expect_proved(blocks);
    if (all.size() == 2) EXPECT_GE(difference(all[0].finding, all[1].finding), 2) << line.query;
  }
  EXPECT_GE(queries, 40);
}

TEST(Find, TheSameSeedFindsTheSame) {
  const Query q = query("must play larger and can hit");
  Options options;
  options.effort.work_to_choose = 2'000;
  options.count = 4;
  const auto once = found_by(q, options);
  const auto twice = found_by(q, options);
  ASSERT_EQ(once.size(), 4U);
  ASSERT_EQ(twice.size(), 4U);
  for (std::size_t i = 0; i < 4; ++i) EXPECT_EQ(once[i].finding, twice[i].finding);
  options.seed = 2;
  EXPECT_NE(found_by(q, options).front().finding, once.front().finding);
}

TEST(Find, NothingCanBeTakenOffWhatWasBuilt) {
  for (const std::string_view text : {"larger-die", "both-dice and bar", "no play and not bar"}) {
    const Query q = query(text);
    Options options;
    options.effort.work_to_choose = 2'000;
    for (const Found& found : found_by(q, options)) {
      for (const Side side : {Side::light, Side::dark}) {
        for (std::size_t place = 1; place <= bar_place; ++place) {
          Finding thinner = found.finding;
          if (thinner.board.of(side)[place] == 0 || in_play(thinner.board, side) == 1) continue;
          --thinner.board.of(side)[place];
          ++thinner.board.of(side)[off_place];
          // What was tidied may have become thinner still; then it is not as sparse as it might be.
          EXPECT_FALSE(holds(q, thinner)) << text << ": " << to_text(thinner.board);
        }
      }
    }
  }
}

TEST(Find, StopsWhereTheCallerSays) {
  const Query q = query("blocked-point");
  int seen = 0;
  Options options;
  options.count = 10;
  find(wanted(q), options, [&](const Found&) { return ++seen < 3; });
  EXPECT_EQ(seen, 3);
}

/// Every placing of `count` checkers on 24 points and the bar, by counting in base 25.
std::vector<Camp> camps(int count) {
  std::set<Camp> all;
  int codes = 1;
  for (int i = 0; i < count; ++i) codes *= 25;
  for (int code = 0; code < codes; ++code) {
    Camp camp{};
    camp[0] = static_cast<std::uint8_t>(15 - count);
    for (int i = 0, rest = code; i < count; ++i, rest /= 25)
      ++camp[static_cast<std::size_t>(1 + rest % 25)];
    all.insert(camp);
  }
  return {all.begin(), all.end()};
}

bool share_a_point(const Board& board) {
  for (int point = 1; point <= 24; ++point) {
    if (board.camps[0][static_cast<std::size_t>(point)] > 0 &&
        board.camps[1][static_cast<std::size_t>(25 - point)] > 0)
      return true;
  }
  return false;
}

// An enumeration written another way, with plays from the slow generator: the boards of small
// families for which some roll has so many plays are exactly those that the finder lists.
TEST(Families, AreCompleteByAnIndependentEnumeration) {
  const std::vector<std::string_view> texts{"plays 0", "plays 2", "plays at least 4",
                                            "plays 1 and not roll double"};
  std::vector<Query> queries;
  for (const auto text : texts) queries.push_back(query(text));
  for (const Family family : {Family{1, 1}, Family{1, 2}}) {
    std::vector<reference::Boards> expected(texts.size());
    std::int64_t boards = 0;
    for (const Camp& light : camps(family.light)) {
      for (const Camp& dark : camps(family.dark)) {
        const Board board{{light, dark}};
        if (share_a_point(board)) continue;
        ++boards;
        for (const Roll roll : all_rolls()) {
          const std::size_t plays = reference::results(board, Side::light, roll).size();
          if (plays == 0) expected[0].insert(board);
          if (plays == 2) expected[1].insert(board);
          if (plays >= 4) expected[2].insert(board);
          if (plays == 1 && !roll.is_double()) expected[3].insert(board);
        }
      }
    }
    EXPECT_EQ(boards, boards_in(family));
    for (std::size_t i = 0; i < texts.size(); ++i) {
      reference::Boards found;
      Facts facts(Side::light);
      each_in_family(wanted(queries[i]), family, facts, [&](const Finding& finding) {
        EXPECT_TRUE(found.insert(finding.board).second);
        return true;
      });
      EXPECT_EQ(found, expected[i]) << texts[i];
    }
  }
}

// What is said to be smallest is: an enumeration of everything smaller, with the slow generator and
// the rule written out again, finds nothing.
TEST(Families, TheSmallestIsTheSmallest) {
  const Query q = query("must play larger");
  Options options;
  options.road = Road::smallest;
  const auto all = found_by(q, options);
  ASSERT_FALSE(all.empty());
  ASSERT_TRUE(all.front().proved_smallest);
  const Board& first = all.front().finding.board;
  ASSERT_EQ(in_play(first, Side::light) + in_play(first, Side::dark), 3);
  for (const Camp& light : camps(1)) {
    for (const Camp& dark : camps(1)) {
      const Board board{{light, dark}};
      if (share_a_point(board)) continue;
      for (const Roll roll : all_rolls()) {
        if (roll.is_double()) continue;
        // One move is made, by the larger die, and the smaller would lead elsewhere.
        const auto results = reference::results(board, Side::light, roll);
        bool one_move = !results.empty();
        for (const Board& after : results)
          one_move = one_move &&
                     pip_count(board, Side::light) - pip_count(after, Side::light) <= roll.high();
        if (!one_move || results.size() != 1) continue;
        const Attempt attempt = [&] {
          Attempt by_low;
          const Place from = rearmost(board, Side::light);
          const int to = std::max(0, from - roll.low());
          by_low.journeys.push_back({{from, static_cast<Place>(to)}, {false, false}, {}});
          return by_low;
        }();
        Position position;
        position.board = board;
        position.turn = Side::light;
        position.roll = roll;
        const Ruling ruling = rule_on(position, attempt);
        EXPECT_FALSE(!ruling.allowed && ruling.rule->id == "larger-die") << to_text(position);
      }
    }
  }
}

TEST(Families, BoundsComeFromTheQuery) {
  const auto of = [](std::string_view text) { return bounds_of(query(text), Side::light); };
  EXPECT_EQ(of("checkers light 2 and off dark at least 12").in_play[0], (Range{2, 2}));
  EXPECT_EQ(of("checkers light 2 and off dark at least 12").in_play[1], (Range{1, 3}));
  EXPECT_EQ(of("bar 3 and forced").in_play[0], (Range{3, 15}));
  EXPECT_EQ(of("prime dark 5").in_play[1], (Range{10, 15}));
  EXPECT_EQ(of("pips at most 3").in_play[0], (Range{1, 3}));
  EXPECT_TRUE(of("home points dark at least 8").empty());
  EXPECT_EQ(of("not checkers light 2").in_play[0], (Range{1, 15}));
  EXPECT_EQ(of("checkers light 2 or forced").in_play[0], (Range{1, 15}));
}

TEST(Near, ChangesOneCheckerWhereOneIsEnough) {
  const auto position = read_position("light barx1 6x5; dark 6x2 5x2 4x2; light to play 6-5");
  const Query q = query("can enter");
  Wanted want = wanted(q);
  want.roll = position->roll;
  const Neighbours near = neighbours(want, position->board, false);
  EXPECT_FALSE(near.true_already);
  EXPECT_EQ(near.checkers, 1);
  ASSERT_FALSE(near.found.empty());
  for (const Neighbour& neighbour : near.found) {
    EXPECT_TRUE(holds(q, neighbour.finding));
    EXPECT_EQ(difference({position->board, position->roll}, neighbour.finding), 1);
  }
  EXPECT_TRUE(neighbours(want, near.found.front().finding.board, false).true_already);
  // And back: what makes it false again.
  const Neighbours back = neighbours(want, near.found.front().finding.board, true);
  ASSERT_EQ(back.checkers, 1);
  for (const Neighbour& neighbour : back.found) EXPECT_FALSE(holds(q, neighbour.finding));
}

TEST(Near, TriesTwoCheckersOnlyAfterEveryOne) {
  const auto position = read_position(
      "light barx1; dark 6x2 5x2 4x2 3x2 2x2 1x2; light to play "
      "6-5");
  const Query q = query("can enter and blots dark 0");
  Wanted want = wanted(q);
  want.roll = position->roll;
  const Neighbours near = neighbours(want, position->board, false);
  EXPECT_EQ(near.checkers, 2);
  for (const Neighbour& neighbour : near.found) {
    EXPECT_TRUE(holds(q, neighbour.finding));
    EXPECT_EQ(difference({position->board, position->roll}, neighbour.finding), 2);
  }
}

// The nets' own choice is the best play, and the lead is what it says.
TEST(Find, BestPlaysAreThoseOfTheEvaluator) {
  for (const std::string_view text : {"best by at least 0.150",
                                      "natural play wrong by at least "
                                      "0.150"}) {
    const Query q = query(text);
    Options options;
    options.road = Road::games;
    options.count = 3;
    const auto all = found_by(q, options);
    ASSERT_EQ(all.size(), 3U) << text;
    for (const Found& found : all) {
      const judge::Evaluator& evaluator = judge::shipped_evaluator();
      const auto plays = legal_plays(found.finding.board, Side::light, *found.finding.roll);
      const std::size_t best = evaluator.best_play(plays, Side::light);
      const auto worth = [&](std::size_t i) {
        return -evaluator.evaluate(plays[i].after, Side::dark).chances.equity();
      };
      float next = -9;
      for (std::size_t i = 0; i < plays.size(); ++i)
        if (i != best) next = std::max(next, worth(i));
      const bool natural = text.starts_with("natural");
      const float other = natural ? worth(natural_play(plays, Side::light)) : next;
      EXPECT_GE(worth(best) - other, 0.1495F);
      const Shown shown = show(q, found.finding, Side::light);
      EXPECT_NE(shown.sentences.front().find(pointwright::to_text(plays[best].play)),
                std::string::npos);
    }
  }
}

TEST(Games, TheWayToAPositionLeadsThere) {
  const Query q = query("bar and no play");
  Options options;
  options.road = Road::games;
  options.count = 5;
  const auto all = found_by(q, options);
  ASSERT_EQ(all.size(), 5U);
  for (const Found& found : all) {
    EXPECT_TRUE(holds(q, found.finding));
    Board board = starting_board();
    Side side = Side::light;
    for (const Turn& turn : way_to(found.game, found.turn + 1)) {
      EXPECT_EQ(turn.before, board);
      const auto legal = legal_plays(board, turn.side, turn.roll);
      const Board after_play = after(board, turn.side, turn.play);
      EXPECT_TRUE(turn.play.empty() ? legal.empty()
                                    : std::any_of(legal.begin(), legal.end(), [&](const auto& l) {
                                        return l.after == after_play;
                                      }));
      side = turn.side;
      board = after_play;
    }
    // The last turn of the way is the one that was found.
    const auto way = way_to(found.game, found.turn + 1);
    EXPECT_EQ(side == Side::light ? way.back().before : swapped(way.back().before),
              found.finding.board);
    EXPECT_EQ(way.back().roll, *found.finding.roll);
  }
}

}  // namespace
}  // namespace pointwright::finder

#include "finder/query.hpp"

#include <gtest/gtest.h>

#include <map>
#include <random>

#include "finder/tempting.hpp"
#include "rules/ruling.hpp"
#include "tests/rules/random_positions.hpp"

namespace pointwright::finder {
namespace {

Position position(std::string_view line) {
  const auto read = read_position(line);
  EXPECT_TRUE(read.ok()) << line;
  return read.value();
}

Query query(std::string_view text) {
  auto read = read_query(text);
  EXPECT_TRUE(read.ok()) << text << ": " << (read.ok() ? "" : read.error().front().reason);
  return read.value();
}

bool holds(std::string_view text, std::string_view line) {
  const Position p = position(line);
  Facts facts(*p.turn);
  facts.look_at(p.board, p.roll);
  const Query q = query(text);
  const bool yes = q.truth(facts) == Truth::yes;
  EXPECT_EQ(q.distance(facts) == 0, yes) << text << " of " << line;
  return yes;
}

TEST(Query, TheExampleOfEachKindReadsAndPrintsBack) {
  for (const PredicateKind* kind : predicate_kinds()) {
    const auto read = read_query(kind->example);
    ASSERT_TRUE(read.ok()) << kind->example << ": " << read.error().front().reason;
    EXPECT_EQ(read->predicate().kind, kind) << kind->example;
    EXPECT_EQ(to_text(*read), kind->example);
  }
}

TEST(Query, PrintsWhatItReads) {
  for (const std::string_view text :
       {"must play larger and not bar or no contact", "not (forced or no play)",
        "(forced or no play) and bearing off dark", "chance (hit and safe) 11/36",
        "chance must hit at least 11/36", "plays 2 to 4", "lead light -3 to 3",
        "illegal (hit and safe) because both-dice", "illegal 6/off(2) because all-home",
        "legal 8/5(2) and forced", "legal no play", "on dark 5 at least 2", "roll 6-4",
        "roll double", "roll 6", "must play 1 to 3 of 4", "bar light at least 1",
        "best by 0.050 to 0.100"}) {
    const auto read = read_query(text);
    ASSERT_TRUE(read.ok()) << text << ": " << read.error().front().reason;
    const std::string printed = to_text(*read);
    const auto again = read_query(printed);
    ASSERT_TRUE(again.ok()) << printed;
    EXPECT_EQ(to_text(*again), printed);
  }
  EXPECT_EQ(to_text(query("not (forced or no play)")), "not (forced or no play)");
  EXPECT_EQ(to_text(query("larger-die")), "illegal because larger-die");
  EXPECT_EQ(to_text(query("chance hit and safe 11/36")), "chance (hit and safe) 11/36");
  EXPECT_EQ(to_text(query("(legal 8/5(2))")), "legal 8/5(2)");
}

struct Wrong {
  std::string_view text;
  std::string_view id;
  std::string_view at;   ///< what is underlined
  std::string_view fix;  ///< begins so
};

TEST(Query, SaysWhatIsWrongWhereAndWhatWasMeant) {
  for (const Wrong& wrong : {
           Wrong{"must play lager", "statement-unfinished", "lager", "it is written"},
           Wrong{"illegal because larger-dye", "no-such-rule", "larger-dye",
                 "did you mean `larger-die`?"},
           Wrong{"illegal because hit", "not-a-rule-of-play", "hit", "the rules by which"},
           Wrong{"piips light 3", "no-such-statement", "piips", "did you mean `pips`?"},
           Wrong{"forced and", "statement-missing", "", "write one"},
           Wrong{"(forced", "bracket-open", "", "add )"},
           Wrong{"forced forced", "query-continues", "forced", "join statements"},
           Wrong{"pips light", "statement-unfinished", "pips light", "it is written"},
           Wrong{"pips light 9 to 3", "range-backward", "9 to 3", "write the smaller"},
           Wrong{"chance hit 11/35", "not-a-fraction", "11/35", "write it like"},
           Wrong{"can hti", "no-such-event", "hti", "did you mean `hit`?"},
           Wrong{"enter", "event-alone", "enter", "write `can enter`"},
           Wrong{"must play 7", "not-a-die", "7", "write 1 to 6"},
           Wrong{"roll 7-1", "not-a-roll", "7-1", "write two dice"},
           Wrong{"on light 25", "not-a-place", "25", "write 1 to 24"},
           Wrong{"best by at least much", "not-an-amount", "much", "write it like"},
           Wrong{"pips light 4000", "number-too-large", "4000", "write a number"},
       }) {
    const auto read = read_query(wrong.text);
    ASSERT_FALSE(read.ok()) << wrong.text;
    const Fault& fault = read.error().front();
    EXPECT_EQ(fault.id, wrong.id) << wrong.text;
    EXPECT_EQ(wrong.text.substr(fault.where.begin, fault.where.end - fault.where.begin), wrong.at)
        << wrong.text;
    EXPECT_TRUE(fault.fix.starts_with(wrong.fix)) << wrong.text << ": " << fault.fix;
  }
}

TEST(Query, EndlessBracketsAndLongTextsAreRefused) {
  EXPECT_EQ(read_query(std::string(1000, '(')).error().front().id, "nested-too-deeply");
  EXPECT_EQ(read_query(std::string(3000, 'x')).error().front().id, "query-too-long");
  EXPECT_EQ(read_query("").error().front().id, "statement-missing");
}

TEST(Query, IsTrueOrFalseOfPositions) {
  const std::string_view larger = "light 12x1 3x2; dark 23x2 6x3; light to play 6-4";
  EXPECT_TRUE(holds("must play larger", larger));
  EXPECT_TRUE(holds("must play 6", larger));
  EXPECT_TRUE(holds("larger-die and forced and blots 1", larger));
  EXPECT_TRUE(holds("not must play smaller and checkers light 3", larger));
  EXPECT_TRUE(holds("points dark 2 and home points dark 1", larger));
  EXPECT_FALSE(holds("no contact or bar", larger));
  const std::string_view start =
      "light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; light to play "
      "3-1";
  EXPECT_TRUE(holds("plays 16 and must use both and can point 5", start));
  EXPECT_TRUE(holds("pips light 167 and lead 0 and off dark 0 and anchor light", start));
  EXPECT_TRUE(holds("illegal 13/12 8/5 because blocked-point", start));
  EXPECT_TRUE(holds("on dark 6 5 and stack 5 and prime dark 1", start));
  EXPECT_FALSE(holds("both-dice", start));
  EXPECT_TRUE(holds("both-dice", "light 14x1 9x1 2x3 1x2; dark 21x2 20x2 6x3; light to play 6-4"));
  EXPECT_TRUE(
      holds("chance hit 17/36 and not chance hit 16/36", "light 12x1; dark 19x1; light to roll"));
}

TEST(Query, ATruthThatIsKnownEarlyStaysTrue) {
  std::mt19937_64 random(5);
  std::vector<Query> queries;
  for (const PredicateKind* kind : predicate_kinds()) queries.push_back(query(kind->example));
  for (const std::string_view text :
       {"contact", "both-dice", "whole-double", "one-meaning", "must play larger and bar",
        "not contact or roll double", "illegal off because highest-first"})
    queries.push_back(query(text));
  for (int i = 0; i < 500; ++i) {
    const Board board = testing::random_board(random);
    const Roll roll = all_rolls()[random() % 21];
    const Side side = i % 2 == 0 ? Side::light : Side::dark;
    Facts facts(side);
    for (const Query& q : queries) {
      facts.look_at(board, roll);
      const Truth whole = q.truth(facts);
      ASSERT_NE(whole, Truth::unknown);
      EXPECT_EQ(q.distance(facts) == 0, whole == Truth::yes) << to_text(q);
      for (std::uint8_t known = 0; known < knows_all; ++known) {
        facts.look_at(board, roll, known);
        const Truth part = q.truth(facts);
        EXPECT_TRUE(part == Truth::unknown || part == whole)
            << to_text(q) << " of " << pointwright::to_text(facts.position()) << " knowing "
            << int{known};
      }
    }
  }
}

/// A few blots and pairs a side: the must-play rules decide on such boards more often.
Board sparse_board(std::mt19937_64& random) {
  const auto below = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
  Board board;
  for (const Side side : {Side::light, Side::dark}) {
    Camp& camp = board.of(side);
    camp[off_place] = checkers_per_side;
    const int groups = 1 + below(5);
    for (int group = 0; group < groups; ++group) {
      const auto place = static_cast<Place>(1 + below(25));
      if (place != bar_place && board.count(opponent(side), mirrored(place)) > 0) continue;
      const auto count = static_cast<std::uint8_t>(1 + below(2));
      camp[off_place] = static_cast<std::uint8_t>(camp[off_place] - count);
      camp[place] = static_cast<std::uint8_t>(camp[place] + count);
    }
    if (camp[off_place] == checkers_per_side) {
      --camp[off_place];
      ++camp[bar_place];
    }
  }
  return board;
}

// Every play that is said to tempt is refused by its rule, whatever the position.
TEST(Tempting, TheRefereeRefusesEachByItsRule) {
  std::mt19937_64 random(11);
  std::map<std::string_view, int> seen;
  std::vector<Tempting> found;
  for (int i = 0; i < 5000; ++i) {
    Position p;
    p.board = i % 3 == 0 ? testing::random_board(random) : sparse_board(random);
    p.turn = i % 2 == 0 ? Side::light : Side::dark;
    p.roll = all_rolls()[random() % 21];
    Facts facts(*p.turn);
    facts.look_at(p.board, p.roll);
    for (const Temptation& temptation : temptations()) {
      temptation.list(facts, 20, found);
      for (const Tempting& tempting : found) {
        ++seen[temptation.rule->id];
        EXPECT_TRUE(is_refused(p, tempting.play, *temptation.rule))
            << temptation.rule->id << ": " << written(tempting) << " of "
            << pointwright::to_text(p);
      }
    }
  }
  for (const Temptation& temptation : temptations())
    EXPECT_GE(seen[temptation.rule->id], 5) << temptation.rule->id;
}

}  // namespace
}  // namespace pointwright::finder

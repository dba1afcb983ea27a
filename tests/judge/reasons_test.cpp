#include "judge/reasons.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numeric>
#include <optional>
#include <regex>
#include <set>

#include "judge/grade.hpp"
#include "judge/position_valuation.hpp"
#include "judge/search.hpp"
#include "judge/shipped.hpp"
#include "judge/words.hpp"
#include "rules/notation.hpp"
#include "rules/position.hpp"
#include "tests/rules/random_positions.hpp"

/// The words of reasons are taken apart again, and every number in them is computed anew from the
/// rules and the evaluator alone.
namespace pointwright::judge {
namespace {

/// The other side's best answer to a board with one roll, found by trying all of them.
struct PlainAnswer {
  double worth = 0;  ///< to the side that answers' opponent
  Board before{};
  Board after{};
  bool moved = false;
};

PlainAnswer plain_answer(const Board& board, Side answering, Roll roll,
                         const Valuation& valuation) {
  PlainAnswer best{.worth = 1e9, .before = board, .after = board};
  auto plays = legal_plays(board, answering, roll);
  best.moved = !plays.empty();
  if (plays.empty()) plays.push_back({Play{}, board});
  for (const LegalPlay& play : plays) {
    const Chances chances = shipped_evaluator().evaluate(play.after, opponent(answering)).chances;
    const auto worth = static_cast<double>(valuation.equity(chances));
    if (worth < best.worth) {
      best.worth = worth;
      best.after = play.after;
    }
  }
  return best;
}

/// Whether words such as "hits" are true of an answer, judged by the two boards.
bool is_true_of(std::string_view words, const PlainAnswer& answer, Side answering) {
  const Side target = opponent(answering);
  const auto count = [](const Board& board, Side side, int from, int to) {
    int n = 0;
    for (int place = from; place <= to; ++place) n += board.count(side, static_cast<Place>(place));
    return n;
  };
  const auto new_points = [&](int from, int to) {
    int n = 0;
    for (int point = from; point <= to; ++point) {
      const auto place = static_cast<Place>(point);
      if (answer.before.count(answering, place) < 2 && answer.after.count(answering, place) >= 2)
        ++n;
    }
    return n;
  };
  const bool wins = answer.after.count(answering, off_place) == 15;
  const bool hits = answer.after.count(target, bar_place) > answer.before.count(target, bar_place);
  const bool waits = answer.after.count(answering, bar_place) > 0;
  const bool runs =
      count(answer.after, answering, 19, 25) < count(answer.before, answering, 19, 25);
  if (words == "bears off its last checker") return wins;
  if (words == "hits") return hits && !wins;
  if (words == "cannot move") return !answer.moved;
  if (words == "leaves a checker on the bar") return waits && answer.moved && !hits;
  if (words == "makes an anchor") return new_points(19, 24) > 0 && !hits;
  if (words == "makes its 7 or a point at home") return new_points(1, 7) > 0 && !hits;
  if (words == "gets a checker away from the back") return runs && !hits;
  if (words == "comes in from the bar")
    return answer.before.count(answering, bar_place) > 0 && !waits && !hits;
  if (words == "moves quietly") return answer.moved && !hits && !wins && !waits;
  if (words == "neither hits nor is held up") return answer.moved && !hits && !wins && !waits;
  ADD_FAILURE() << "unknown words: " << words;
  return false;
}

/// The rolls that words name; nothing where they name only some.
std::optional<std::vector<Roll>> named(const std::string& words) {
  if (words.starts_with("rolls such as")) return std::nullopt;
  const bool all = words == "every roll";
  const bool others = words.starts_with("every roll but");
  std::vector<Roll> result;
  for (const Roll roll : all_rolls()) {
    bool in = words.find(to_text(roll)) != std::string::npos;
    for (const int die : {roll.high(), roll.low()})
      in = in || words.find("any " + std::to_string(die)) != std::string::npos;
    in = in || (roll.is_double() && words.find("any double") != std::string::npos);
    if (all || in != others) result.push_back(roll);
  }
  return result;
}

struct Pair {
  Board before;
  Side side = Side::light;
  Considered first;
  Considered second;
  Valuation valuation;
};

/// Pairs of plays from positions of many kinds, for points and at match scores.
std::vector<Pair> pairs(int count) {
  std::mt19937_64 random(14);
  std::vector<Pair> result;
  const Valuation valuations[] = {
      Valuation::money(), Valuation::singles(),
      *valuation_of(*read_position("light 6x1; dark 6x1; light to roll; match to 5 score 3-2"),
                    Side::light)};
  while (static_cast<int>(result.size()) < count) {
    const Board any =
        result.size() % 3 == 0 ? starting_board() : pointwright::testing::random_board(random);
    const Side side = result.size() % 2 == 0 ? Side::light : Side::dark;
    const Roll roll(1 + static_cast<int>(random() % 6), 1 + static_cast<int>(random() % 6));
    if (has_won(any, Side::light) || has_won(any, Side::dark)) continue;
    const auto plays = legal_plays(any, side, roll);
    if (plays.size() < 2) continue;
    const LegalPlay& a = plays[random() % plays.size()];
    const LegalPlay& b = plays[random() % plays.size()];
    if (has_won(a.after, side) || has_won(b.after, side)) continue;
    const Valuation& valuation = valuations[result.size() % 3];
    result.push_back({any, side, consider(shipped_evaluator(), any, side, a, valuation),
                      consider(shipped_evaluator(), any, side, b, valuation), valuation});
  }
  return result;
}

double plain_worth(const Considered& play, const Pair& pair) {
  double sum = 0;
  for (const Roll roll : all_rolls())
    sum += roll.ways() *
           plain_answer(play.play.after, opponent(pair.side), roll, pair.valuation).worth;
  return sum / 36;
}

constexpr double shown = 0.0005 + 1e-6;  ///< half of the last digit of an amount

TEST(Looks, AreTheSearchOneRollAhead) {
  Search search(shipped_evaluator());
  for (const Pair& pair : pairs(40)) {
    const SearchedValue theirs =
        search.worth(pair.first.play.after, opponent(pair.side), 1, pair.valuation.reversed());
    if (theirs.depth == 0) continue;  // a table answers
    EXPECT_NEAR(pair.first.look.worth, static_cast<double>(-theirs.equity), 1e-4);
  }
}

TEST(ReplyGroups, ShareOutTheWholeDifference) {
  for (const Pair& pair : pairs(60)) {
    const auto groups = compare(pair.first.look, pair.second.look);
    std::set<std::pair<int, int>> rolls;
    double shares = 0;
    int ways = 0;
    for (std::size_t i = 0; i < groups.size(); ++i) {
      if (i > 0) EXPECT_GE(std::abs(groups[i - 1].share), std::abs(groups[i].share));
      shares += groups[i].share;
      ways += groups[i].ways;
      EXPECT_NEAR(groups[i].mean * groups[i].ways / 36, groups[i].share, 1e-9);
      for (const Roll roll : groups[i].rolls)
        EXPECT_TRUE(rolls.insert({roll.high(), roll.low()}).second);
    }
    EXPECT_EQ(rolls.size(), 21U);
    EXPECT_EQ(ways, 36);
    EXPECT_NEAR(shares, pair.first.look.worth - pair.second.look.worth, 1e-9);
  }
}

TEST(Reasons, SayHowMuchThePlaysDiffer) {
  const std::regex form(
      R"(.* at its best, (.*) is worth ([0-9.]+) points (more|less) than (.*)\.)");
  for (const Pair& pair : pairs(60)) {
    const auto all = reasons(pair.first, pair.second, pair.side, pair.valuation);
    const double truth = plain_worth(pair.first, pair) - plain_worth(pair.second, pair);
    std::smatch match;
    ASSERT_EQ(all.front().kind, Reason::Kind::difference);
    if (!std::regex_match(all.front().text, match, form)) {
      EXPECT_NE(all.front().text.find("are worth the same"), std::string::npos);
      EXPECT_LE(std::abs(truth), shown);
      continue;
    }
    EXPECT_EQ(match[1], to_text(pair.first.play.play));
    EXPECT_EQ(match[4], to_text(pair.second.play.play));
    EXPECT_NEAR(std::stod(match[2]) * (match[3] == "more" ? 1 : -1), truth, shown);
  }
}

TEST(Reasons, AreTrueOfTheRepliesThatTheyName) {
  const std::regex form(R"(With (.*) \(([0-9]+) of 36\) (light|dark) (.*)\. That costs (.*) )"
                        R"(([0-9.]+) on average, ([0-9.]+) points in all\.)");
  int sentences = 0;
  for (const Pair& pair : pairs(90)) {
    const Side other = opponent(pair.side);
    const std::string a = to_text(pair.first.play.play);
    const std::string b = to_text(pair.second.play.play);
    double last = 1e9;
    for (const Reason& reason : reasons(pair.first, pair.second, pair.side, pair.valuation)) {
      if (reason.kind != Reason::Kind::replies) continue;
      ++sentences;
      std::smatch match;
      ASSERT_TRUE(std::regex_match(reason.text, match, form)) << reason.text;
      EXPECT_LE(std::abs(reason.share), last);  // the largest first
      last = std::abs(reason.share);
      EXPECT_EQ(match.str(3), name(other));
      const auto rolls = named(match[1]);
      if (!rolls) continue;
      int ways = 0;
      double share = 0;
      for (const Roll roll : *rolls) {
        ways += roll.ways();
        const PlainAnswer to_a = plain_answer(pair.first.play.after, other, roll, pair.valuation);
        const PlainAnswer to_b = plain_answer(pair.second.play.after, other, roll, pair.valuation);
        share += (to_a.worth - to_b.worth) * roll.ways() / 36;
        // What the sentence says of the two answers.
        std::smatch said;
        const std::string words = match[4];
        if (std::regex_match(words, said, std::regex("(.*) after either play"))) {
          EXPECT_TRUE(is_true_of(said.str(1), to_a, other)) << reason.text;
          EXPECT_TRUE(is_true_of(said.str(1), to_b, other)) << reason.text;
        } else if (std::regex_match(words, said,
                                    std::regex("(.*) after (.*) and not after (.*)"))) {
          const bool first_named = said[2] == a;
          EXPECT_TRUE(is_true_of(said.str(1), first_named ? to_a : to_b, other)) << reason.text;
          EXPECT_FALSE(is_true_of(said.str(1), first_named ? to_b : to_a, other)) << reason.text;
        } else {
          ASSERT_TRUE(
              std::regex_match(words, said, std::regex("(.*) after (.*) and (.*) after (.*)")))
              << words;
          EXPECT_TRUE(is_true_of(said.str(1), to_a, other)) << reason.text;
          EXPECT_TRUE(is_true_of(said.str(3), to_b, other)) << reason.text;
        }
      }
      EXPECT_EQ(ways, std::stoi(match[2])) << reason.text;
      EXPECT_EQ(match[5], share > 0 ? b : a) << reason.text;
      EXPECT_NEAR(std::stod(match[7]), std::abs(share), shown) << reason.text;
      EXPECT_NEAR(std::stod(match[6]), std::abs(share) * 36 / ways, shown) << reason.text;
    }
  }
  EXPECT_GT(sentences, 60);
}

TEST(Reasons, AreTrueOfHowTheGamesEnd) {
  const std::regex form(R"((Light|Dark) (wins|loses)( a gammon| a backgammon|) in ([0-9.]+)% of )"
                        R"(the games after (.*) and in ([0-9.]+)% after (.*): ([0-9.]+) points )"
                        R"(for (.*)\.)");
  int sentences = 0;
  for (const Pair& pair : pairs(60)) {
    for (const Reason& reason : reasons(pair.first, pair.second, pair.side, pair.valuation)) {
      if (reason.kind != Reason::Kind::ends) continue;
      ++sentences;
      std::smatch match;
      ASSERT_TRUE(std::regex_match(reason.text, match, form)) << reason.text;
      const std::string what = match[2].str() + match[3].str();
      const auto of = [&](const Considered& play) {
        double sum = 0;
        for (const Roll roll : all_rolls()) {
          const PlainAnswer answer =
              plain_answer(play.play.after, opponent(pair.side), roll, pair.valuation);
          const Chances c = shipped_evaluator().evaluate(answer.after, pair.side).chances;
          const float chance = what == "wins"                ? c.win
                               : what == "wins a gammon"     ? c.win_gammon
                               : what == "wins a backgammon" ? c.win_backgammon
                               : what == "loses a gammon"    ? c.lose_gammon
                                                             : c.lose_backgammon;
          sum += roll.ways() * static_cast<double>(chance);
        }
        return sum / 36;
      };
      const double weight = what == "wins"                ? pair.valuation.win
                            : what == "wins a gammon"     ? pair.valuation.win_gammon
                            : what == "wins a backgammon" ? pair.valuation.win_backgammon
                            : what == "loses a gammon"    ? pair.valuation.lose_gammon
                                                          : pair.valuation.lose_backgammon;
      const double a = of(pair.first);
      const double b = of(pair.second);
      EXPECT_NEAR(std::stod(match[4]), 100 * a, 0.051) << reason.text;
      EXPECT_NEAR(std::stod(match[6]), 100 * b, 0.051) << reason.text;
      const double share = weight * (a - b);
      EXPECT_NEAR(std::stod(match[8]), std::abs(share), shown + 1e-5) << reason.text;
      EXPECT_EQ(match[9], to_text((share > 0 ? pair.first : pair.second).play.play));
    }
  }
  EXPECT_GT(sentences, 40);
}

TEST(Reasons, LeaveOutWhatTheNumbersDoNotShow) {
  for (const Pair& pair : pairs(60)) {
    for (const Reason& reason : reasons(pair.first, pair.second, pair.side, pair.valuation)) {
      if (reason.kind == Reason::Kind::replies || reason.kind == Reason::Kind::ends)
        EXPECT_GE(std::abs(reason.share), 0.004) << reason.text;
    }
  }
  // The same play twice: nothing tells it from itself.
  const Pair pair = pairs(1).front();
  for (const Reason& reason : reasons(pair.first, pair.first, pair.side, pair.valuation))
    EXPECT_TRUE(reason.kind == Reason::Kind::difference || reason.kind == Reason::Kind::board);
}

TEST(Reasons, SpeakOfTheSidesByTheirNames) {
  SideNames names;
  names.of = {"Ivory", "Walnut"};
  const Pair pair = pairs(1).front();
  for (const Reason& reason : reasons(pair.first, pair.second, pair.side, pair.valuation, names)) {
    EXPECT_EQ(reason.text.find("light"), std::string::npos);
    EXPECT_EQ(reason.text.find("dark"), std::string::npos);
  }
}

TEST(Words, NameRollsThatCanBeReadBack) {
  std::mt19937_64 random(15);
  int whole = 0;
  for (int i = 0; i < 4000; ++i) {
    std::vector<Roll> rolls;
    const auto density = random() % 9;
    for (const Roll roll : all_rolls()) {
      if (random() % 8 < density) rolls.push_back(roll);
    }
    if (rolls.empty()) continue;
    const std::string text = words::rolls(rolls);
    if (const auto back = named(text)) {
      ASSERT_EQ(*back, rolls) << text;
      ++whole;
    } else {
      for (const Roll roll : all_rolls()) {
        if (text.find(to_text(roll)) != std::string::npos)
          ASSERT_NE(std::ranges::find(rolls, roll), rolls.end()) << text;
      }
    }
  }
  EXPECT_GT(whole, 1500);
}

TEST(Words, WriteDecimalsAsTheStandardLibraryDoes) {
  std::mt19937_64 random(16);
  for (int i = 0; i < 2000; ++i) {
    const double value = (static_cast<double>(random() % 2'000'001) - 1e6) / 331777.0;
    for (int places = 0; places <= 4; ++places) {
      char text[40];
      std::snprintf(text, sizeof text, "%.*f", places, value);
      const std::string expected = std::stod(text) == 0 && text[0] == '-' ? text + 1 : text;
      ASSERT_EQ(words::decimal(value, places), expected);
    }
  }
}

TEST(Grades, CoverEveryCostInOrder) {
  double last = -1;
  for (const Grade& grade : grades()) {
    EXPECT_GT(grade.from, last);
    last = grade.from;
    EXPECT_EQ(grade_of(grade.from).name, grade.name);
    if (grade.from > 0) EXPECT_NE(grade_of(grade.from - 1e-9).name, grade.name);
  }
  EXPECT_EQ(grades().front().from, 0);
  EXPECT_EQ(grade_of(10).name, grades().back().name);
}

}  // namespace
}  // namespace pointwright::judge

// The referee on plays that teachers show: one position for each rule and each reason of refusal.

#include "rules/ruling.hpp"

#include <gtest/gtest.h>

#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace pointwright {
namespace {

Ruling rule(std::string_view line, std::string_view play, const SideNames& names = {}) {
  const auto position = read_position(line);
  const auto attempt = read_play(play);
  EXPECT_TRUE(position) << line << ": " << (position ? "" : position.error().front().reason);
  EXPECT_TRUE(attempt) << play << ": " << (attempt ? "" : attempt.error().front().reason);
  if (!position || !attempt) return {};
  return rule_on(*position, *attempt, names);
}

constexpr std::string_view start =
    "light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; light to play ";
constexpr std::string_view one_on_bar =
    "light barx1 13x5 8x3 6x6; dark 24x2 13x3 8x2 6x3 5x2 4x3; light to play 3-1";
constexpr std::string_view two_on_bar =
    "light barx2 13x5 8x3 6x5; dark 24x2 13x3 8x2 6x3 5x2 4x3; light to play 3-1";
constexpr std::string_view shut_out =
    "light barx1 6x5; dark 6x2 5x2 4x2 3x2 2x2 1x2; light to play 5-2";
constexpr std::string_view bearing_off = "light 6x1 5x2 2x2; dark 6x2 5x2; light to play 6-1";
constexpr std::string_view straggler = "light 14x1 6x2 5x2; dark 6x3 5x3; light to play 6-2";
constexpr std::string_view one_die = "light 12x1 3x2; dark 23x2 6x3; light to play 6-4";
constexpr std::string_view spoiler =
    "light 14x1 9x1 2x3 1x2; dark 21x2 20x2 6x3; light to play 6-4";
constexpr std::string_view three_of_four = "light 13x1 2x3; dark 24x2 6x3; light to play 3-3";
constexpr std::string_view one_blot = "light 24x1 6x5; dark 13x5 7x1; light to play 6-4";
constexpr std::string_view two_blots = "light 24x1 6x5; dark 13x5 7x1 5x1; light to play 6-4";

std::string at_start(std::string_view roll) {
  return std::string(start) + std::string(roll);
}

struct Refused {
  std::string position;
  std::string_view attempt;
  std::string_view rule;
  std::string_view proof;
};

const std::vector<Refused>& refused() {
  static const std::vector<Refused> cases{
      // The moves as written.
      {at_start("6-4"), "7/1 24/20", "own-checker", "Light has no checker on 7."},
      {at_start("6-4"), "19/13", "own-checker",
       "Light has no checker on 19; dark has five checkers on light's 19 (dark's 6)."},
      {at_start("6-4"), "bar/21", "own-checker", "Light has no checker on the bar."},
      {at_start("5-5"), "8/3(4)", "own-checker",
       "Four checkers would start on 8, but light has only three there."},
      {std::string(three_of_four), "13/10 10/7(2)", "own-checker",
       "Two checkers would start on 10, but light has none there and brings only one."},
      {at_start("6-4"), "6/10 24/18", "forward-only",
       "6/10 goes back 4 pips; light moves from higher points to lower, towards light's 1."},
      {at_start("2-1"), "6/7", "forward-only",
       "6/7 goes back 1 pip; light moves from higher points to lower, towards light's 1."},
      {at_start("4-2"), "8/3", "dice-numbers",
       "8/3 moves 5 pips; the roll is 4-2, so one checker can move 4, 2 or, with both dice, 6."},
      {at_start("5-5"), "13/7", "dice-numbers",
       "13/7 moves 6 pips; the roll is 5-5, so one checker can move 5, 10, 15 or 20."},
      {at_start("6-4"), "8/8 24/18", "dice-numbers", "8/8 moves no pips; the roll is 6-4."},
      {"light 6x2 5x1; dark 6x2; light to play 3-1", "6/off", "dice-numbers",
       "6/off needs 6 pips; the roll is 3-1, so one checker can move 3, 1 or, with both dice, 4."},
      {at_start("4-2"), "8/4 6/2", "die-once",
       "Two moves of 4 are written, 8/4 and 6/2; the roll 4-2 has one 4."},
      {at_start("6-4"), "13/7(2)", "die-once",
       "Two moves of 6 are written, 13/7(2); the roll 6-4 has one 6."},
      {at_start("5-5"), "13/8(4) 8/3", "die-once",
       "Five moves of 5 are written; a double gives four."},
      {"light 24x15; dark 6x2; light to play 3-3", "24/21/18(4) 24/21/18(4)", "die-once",
       "16 moves of 3 are written; a double gives four."},
      {at_start("6-4"), "24/14 13/9", "die-once",
       "The moves written come to 14 pips; the roll 6-4 gives 10."},
      {"light 6x3 1x3; dark 6x2; light to play 6-5", "1/off(3)", "die-once",
       "The roll 6-5 has too few dice for 1/off(3)."},
      // The moves on this board.
      {std::string(one_on_bar), "8/7 6/3", "bar-first",
       "Light has one checker on the bar, which must come in before 8/7 is played."},
      {std::string(two_on_bar), "bar/22 8/7", "bar-first",
       "Light still has one checker on the bar, which must come in before 8/7 is played."},
      {std::string(two_on_bar), "bar/21", "bar-first",
       "Light still has one checker on the bar, which must come in before the checker on 22 moves "
       "on."},
      {at_start("5-1"), "24/19 24/23", "blocked-point",
       "24/19 is blocked: dark has five checkers on light's 19 (dark's 6)."},
      {at_start("6-5"), "24/19/13", "blocked-point",
       "24/19 is blocked: dark has five checkers on light's 19 (dark's 6)."},
      {std::string(one_on_bar), "bar/21", "blocked-point",
       "bar/21 is blocked: dark has three checkers on light's 21 (dark's 4)."},
      {"light 24x2 13x5 8x3 6x5; dark 24x2 13x4 8x2 6x5 4x2; light to play 5-3", "24/16",
       "one-die-at-a-time",
       "24/16 has to stop on 19 or 21 between the dice, and both are blocked: dark has five "
       "checkers "
       "on light's 19 (dark's 6) and two checkers on light's 21 (dark's 4)."},
      {at_start("5-5"), "24/9", "one-die-at-a-time",
       "24/9 has to stop on 19 between the dice, and that is blocked: dark has five checkers on "
       "light's 19 (dark's 6)."},
      {std::string(straggler), "6/off", "all-home",
       "Light has one checker outside its home board, on 14, so 6/off would bear off too soon."},
      {std::string(straggler), "6/off 14/12", "all-home",
       "After 14/12, light has one checker outside its home board, on 12, so 6/off would bear off "
       "too soon."},
      {at_start("6-4"), "6/off", "all-home",
       "Light has ten checkers outside its home board, on 24, 13 and 8, so 6/off would bear off "
       "too "
       "soon."},
      {std::string(bearing_off), "5/off", "highest-first",
       "Light has a checker on its 6-point; it must move before the 5-point is borne off with a "
       "6."},
      {std::string(bearing_off), "5/off 2/1", "highest-first",
       "After 2/1, light has a checker on its 6-point; it must move before the 5-point is borne "
       "off "
       "with a 6."},
      // How much of the roll must be played.
      {at_start("3-1"), "no play", "no-passing",
       "Light can play 3-1, as in 24/20, and so may not pass the turn."},
      {std::string(spoiler), "14/8", "both-dice",
       "14/8 leaves no legal 4, but 14/10 9/3 uses both dice, so both must be played."},
      {at_start("6-4"), "13/9", "both-dice",
       "13/9 plays only the 4; the 6 can be played too, as in 24/18 13/9, so it must be."},
      {std::string(one_die), "12/8", "larger-die",
       "Only one die can be played: 12/8 leaves no legal 6. The 6 can be played instead, as in "
       "12/6, "
       "so the 4 may not be."},
      {std::string(three_of_four), "13/7", "whole-double",
       "13/7 plays only two of the 3s; three can be played, as in 13/4, so three must be."},
      {at_start("5-5"), "13/8(3)", "whole-double",
       "13/8(3) plays only three of the four 5s; all four can be played, as in 13/8(4), so all "
       "four "
       "must be."},
      {std::string(two_blots), "24/14", "one-meaning",
       "This can be played in two ways that hit different blots: 24/18*/14 or 24/20*/14. Write "
       "which "
       "is meant."},
      // No legal play at all: the reason is still the concrete one.
      {std::string(shut_out), "bar/20", "blocked-point",
       "bar/20 is blocked: dark has two checkers on light's 20 (dark's 5). Light has no legal move "
       "with 5-2, and the turn passes."},
      {std::string(shut_out), "6/4", "bar-first",
       "Light has one checker on the bar, which must come in before 6/4 is played. Light has no "
       "legal "
       "move with 5-2, and the turn passes."},
  };
  return cases;
}

TEST(Ruling, NamesTheRuleAndProvesIt) {
  for (const Refused& c : refused()) {
    SCOPED_TRACE(c.position + " | " + std::string(c.attempt));
    const Ruling ruling = rule(c.position, c.attempt);
    EXPECT_FALSE(ruling.allowed);
    ASSERT_NE(ruling.rule, nullptr);
    EXPECT_EQ(ruling.rule->id, c.rule);
    EXPECT_EQ(ruling.proof, c.proof);
  }
}

TEST(Ruling, EveryRuleOfPlayRefusesSomething) {
  std::set<std::string_view> seen;
  for (const Refused& c : refused()) seen.insert(rule(c.position, c.attempt).rule->id);
  for (const Rule* written : rulebook()) {
    if (written->about == Rule::About::play) EXPECT_EQ(seen.count(written->id), 1U) << written->id;
  }
}

TEST(Ruling, OffersTheNearestLegalPlaysFirst) {
  EXPECT_EQ(to_text(rule(at_start("4-2"), "8/3 6/4").alternatives.front()), "8/4 6/4");
  EXPECT_EQ(to_text(rule(at_start("6-4"), "24/13").alternatives.front()), "24/14");
  EXPECT_EQ(to_text(rule(one_die, "12/8").alternatives.front()), "12/6");
  for (const Refused& c : refused()) {
    const auto position = read_position(c.position);
    const auto legal = legal_plays(position->board, *position->turn, *position->roll);
    EXPECT_EQ(rule(c.position, c.attempt).alternatives.size(), legal.size());
  }
}

struct Allowed {
  std::string position;
  std::string_view attempt;
  std::string_view play;
  std::string_view proof;
};

TEST(Ruling, AllowsAndSaysHowTheDiceWereUsed) {
  const std::vector<Allowed> cases{
      {at_start("6-4"), "13/9 24/18", "24/18 13/9", "The 4 is played 13/9 and the 6 24/18."},
      {at_start("6-4"), "24/14", "24/14", "The 6 is played 24/18 and the 4 18/14."},
      {at_start("6-4"), "24/20/14", "24/14", "The 4 is played 24/20 and the 6 20/14."},
      {at_start("6-4"), "18/14 24/18", "24/14", "The 6 is played 24/18 and the 4 18/14."},
      {at_start("5-5"), "13/8(2) 8/3(2)", "13/3(2)", "All four 5s are played."},
      {at_start("5-5"), "13/3 13/3", "13/3(2)", "All four 5s are played."},
      {std::string(three_of_four), "13/4", "13/4",
       "Three of the four 3s are played, and no play uses more. It is the only legal play."},
      {std::string(one_die), "12/6", "12/6",
       "The 6 is played 12/6; only one die can be played, and the larger must be. It is the only "
       "legal play."},
      {"light barx1 6x2; dark 2x2; light to play 6-2", "bar/19/17", "bar/17",
       "The 6 is played bar/19 and the 2 19/17."},
      {std::string(bearing_off), "6/off", "6/off", "The 1 is played 6/5 and the 6 5/off."},
      {"light 6x1; dark 23x2 6x3; light to play 6-4", "6/off", "6/off",
       "The 6 is played 6/off. Light has borne off its last checker and wins. It is the only legal "
       "play."},
      {std::string(shut_out), "no play", "no play",
       "Light has no legal move: a 5 would come in on light's 20 (dark's 5), where dark has two "
       "checkers; a 2 would come in on light's 23 (dark's 2), where dark has two checkers."},
  };
  for (const Allowed& c : cases) {
    SCOPED_TRACE(c.position + " | " + std::string(c.attempt));
    const Ruling ruling = rule(c.position, c.attempt);
    EXPECT_TRUE(ruling.allowed);
    EXPECT_EQ(ruling.rule, nullptr);
    EXPECT_EQ(to_text(ruling.play), c.play);
    EXPECT_EQ(ruling.proof, c.proof);
    EXPECT_TRUE(ruling.alternatives.empty());
  }
}

TEST(Ruling, TakesTheRouteThatTheStarsMean) {
  EXPECT_EQ(to_text(rule(one_blot, "24/14").play), "24/14");
  EXPECT_EQ(to_text(rule(one_blot, "24/14*").play), "24/18*/14");
  EXPECT_EQ(to_text(rule(one_blot, "24/18/14").play), "24/18*/14");
  EXPECT_EQ(to_text(rule(one_blot, "24/18*/14").play), "24/18*/14");
  EXPECT_EQ(to_text(rule(one_blot, "24/20/14").play), "24/14");
  EXPECT_EQ(to_text(rule(two_blots, "24/20/14").play), "24/20*/14");
  EXPECT_FALSE(rule(two_blots, "24/14*").allowed);
  // The only open route hits, so it is taken though no star is written.
  EXPECT_EQ(to_text(rule("light 24x1; dark 7x1 5x2; light to play 6-4", "24/14").play),
            "24/18*/14");
}

TEST(Ruling, ToleratesAnIdleStarAndSaysSo) {
  const Ruling idle = rule(at_start("6-4"), "24/18* 13/9");
  EXPECT_TRUE(idle.allowed);
  EXPECT_EQ(
      idle.proof,
      "The 6 is played 24/18 and the 4 13/9. Nothing is hit on 18, so the * there says nothing.");
  // The second checker on the point hits nothing, but 8/5*(2) is the usual way to write it.
  const Ruling usual = rule("light 8x2 2x1; dark 20x1; light to play 3-3", "8/5*(2) 5/2(2)");
  EXPECT_TRUE(usual.allowed);
  EXPECT_EQ(usual.proof.find("says nothing"), std::string::npos) << usual.proof;
}

TEST(Ruling, NamesTheHitsInBothNumberings) {
  EXPECT_EQ(rule("light 8x2 6x2; dark 21x1 23x1; light to play 4-2", "8/4* 4/2*").proof,
            "The 4 is played 8/4 and the 2 4/2. It hits dark's blots on light's 4 (dark's 21) and "
            "light's 2 (dark's 23).");
}

TEST(Ruling, SpeaksOfTheSidesAsTheLessonDoes) {
  const SideNames names{{"Ivory", "Walnuts"}};
  EXPECT_EQ(rule(at_start("5-1"), "24/19 24/23", names).proof,
            "24/19 is blocked: Walnuts has five checkers on Ivory's 19 (Walnuts' 6).");
  EXPECT_EQ(rule("light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; dark to play 5-1", "24/19 24/23",
                 names)
                .proof,
            "24/19 is blocked: Ivory has five checkers on Walnuts' 19 (Ivory's 6).");
}

}  // namespace
}  // namespace pointwright

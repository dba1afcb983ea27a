// What a lesson becomes: scenes, steps, questions, prose.

#include <gtest/gtest.h>

#include <algorithm>

#include "rules/notation.hpp"
#include "rules/ruling.hpp"
#include "tests/lesson/support.hpp"

namespace pointwright::lesson {
namespace {

using namespace testing;

const Scene& scene(const Compilation& compilation, std::string_view id) {
  for (const Part& part : compilation.storyboard.chapters.front().parts) {
    if (part.scene && part.scene->id == id) return *part.scene;
  }
  static const Scene none;
  ADD_FAILURE() << "no scene " << id;
  return none;
}

const Question& question(const Compilation& compilation, std::string_view id) {
  for (const Part& part : compilation.storyboard.chapters.front().parts) {
    if (part.question && part.question->id == id) return *part.question;
  }
  static const Question none;
  ADD_FAILURE() << "no question " << id;
  return none;
}

TEST(Show, IsPlayedStepByStep) {
  const Compilation result = compile_text(document(cases_folder() / "shows-good.md").lesson);
  ASSERT_EQ(result.outcome(), Outcome::proved) << told(result);
  const Scene& here = scene(result, "here");
  using K = Step::Kind;
  std::vector<K> kinds;
  for (const Step& step : here.steps) kinds.push_back(step.kind);
  EXPECT_EQ(kinds, (std::vector<K>{K::say, K::roll, K::attempt, K::move, K::attempt, K::move,
                                   K::say, K::roll, K::move, K::offer, K::take, K::roll, K::move,
                                   K::offer, K::drop}));
  EXPECT_EQ(here.steps[0].words, "A \"blot\" is \\ one checker.");
  EXPECT_EQ(here.steps[0].seconds, 2.5);
  EXPECT_TRUE(here.view.home_on_left);
  EXPECT_EQ(here.view.bottom, Side::dark);
  EXPECT_EQ(here.view.numbering, Side::dark);
  EXPECT_TRUE(here.steps[2].ruling && !here.steps[2].ruling->empty());
  EXPECT_TRUE(here.steps[2].arrows.at(0).refused);
  EXPECT_EQ(here.steps[3].arrows.size(), 1U);
  EXPECT_EQ(here.steps[3].position,
            "light 22x1 13x5 8x3 6x6; dark 24x2 13x5 8x3 6x5; light to play 3-1");
  EXPECT_EQ(here.steps[5].position,
            "light 22x1 13x5 8x3 6x5 5x1; dark 24x2 13x5 8x3 6x5; dark to roll");
  EXPECT_EQ(here.steps[6].marks.size(), 2U);
  EXPECT_EQ(here.steps[8].arrows.size(), 2U);
  EXPECT_EQ(here.steps[9].action, "2");
  EXPECT_NE(here.steps[10].position.find("cube 2 with dark"), std::string::npos);
  EXPECT_EQ(here.steps[12].arrows.size(), 4U);
  EXPECT_EQ(here.steps[14].action, "2");

  const Scene& race = scene(result, "race");
  EXPECT_EQ(race.steps.back().position, "light 1x1 offx14; dark offx15");
}

TEST(Show, ReplaysToTheBoardsItStates) {
  // Each move step's arrows, made on the board before it, give the board after it.
  const Compilation course = compile_course(folder_host(demo_folder()));
  int moves = 0;
  for (const Chapter& chapter : course.storyboard.chapters) {
    for (const Part& part : chapter.parts) {
      if (!part.scene) continue;
      std::string before = part.scene->position;
      for (const Step& step : part.scene->steps) {
        const auto from = read_position(before);
        const auto to = read_position(step.position);
        ASSERT_TRUE(from && to) << before << "\n" << step.position;
        if (step.kind == Step::Kind::move) {
          Board board = from->board;
          for (const Arrow& arrow : step.arrows) make_move(board, arrow.side, arrow.from, arrow.to);
          EXPECT_EQ(to_text(board), to_text(to->board)) << chapter.file << step.source.line;
          ++moves;
        } else if (step.kind != Step::Kind::place) {
          EXPECT_EQ(from->board, to->board) << chapter.file << step.source.line;
        }
        before = step.position;
      }
    }
  }
  EXPECT_GE(moves, 30);
}

TEST(Question, OfPlayKnowsEveryLegalPlay) {
  const Compilation result = compile_text(document(cases_folder() / "questions.md").lesson);
  const Question& good = question(result, "good");
  const auto position = read_position(good.position);
  ASSERT_TRUE(position);
  const auto legal = legal_plays(position->board, *position->turn, *position->roll);
  const auto is_legal = [](const Question::PlayAnswer& play) { return play.legal; };
  EXPECT_EQ(std::count_if(good.plays.begin(), good.plays.end(), is_legal),
            static_cast<std::ptrdiff_t>(legal.size()));
  int right = 0;
  int refused = 0;
  for (const Question::PlayAnswer& play : good.plays) {
    const auto attempt = read_play(play.play);
    ASSERT_TRUE(attempt) << play.play;
    const Ruling ruling = rule_on(*position, *attempt);
    EXPECT_EQ(ruling.allowed, play.legal) << play.play;
    EXPECT_FALSE(play.reply.empty()) << play.play;
    if (play.legal) EXPECT_EQ(play.after, to_text(ruling.after));
    if (play.right) {
      ++right;
      EXPECT_EQ(play.play, "bar/22 6/5");
      EXPECT_EQ(play.reply, "The door is open.");
    }
    if (!play.legal) ++refused;
    if (play.play == "bar/24 13/10") EXPECT_EQ(play.reply, "It works, but there is better.");
  }
  EXPECT_EQ(right, 1);
  EXPECT_GE(refused, 9);
}

TEST(Question, KeepsItsProof) {
  const Compilation result = compile_text(
      "---\ntitle: T\n---\n```board b\nstart\n```\n```question q\nask: How *many* pips?\non: b\n"
      "number: 167 +- 0.5 | pips light 167\nwhy: Count them.\n```\n"
      "```question c\nask: 24. is no list\nright: 1. Yes | Good. | pips light 167\nwrong: - No\n"
      "on: b\n```\n");
  ASSERT_EQ(result.outcome(), Outcome::proved) << told(result);
  const Question& number = question(result, "q");
  EXPECT_EQ(number.number, 167);
  EXPECT_EQ(number.tolerance, 0.5);
  ASSERT_EQ(number.claims.size(), 1U);
  EXPECT_EQ(number.ask.size(), 3U);
  EXPECT_EQ(number.ask[1].kind, Inline::Kind::emphasis);
  const Question& choice = question(result, "c");
  EXPECT_EQ(choice.ask.at(0).text, "24. is no list");
  EXPECT_EQ(choice.choices.at(0).text.at(0).text, "1. Yes");
  EXPECT_EQ(choice.choices.at(1).text.at(0).text, "- No");
  EXPECT_EQ(choice.choices.at(0).reply, "Good.");
  EXPECT_EQ(result.answers.proved, 2);
}

TEST(Prose, KeepsTextRawAndLinksSafe) {
  const Compilation result = compile_text(document(cases_folder() / "prose.md").lesson);
  EXPECT_EQ(result.outcome(), Outcome::proved) << "warnings do not stop a build";
  std::vector<std::string> links;
  std::string all;
  const auto read = [&](const auto& self, const std::vector<Inline>& words) -> void {
    for (const Inline& word : words) {
      if (word.kind == Inline::Kind::link) links.push_back(word.href);
      all += word.text;
      self(self, word.children);
    }
  };
  std::vector<Prose::Kind> kinds;
  for (const Part& part : result.storyboard.chapters[0].parts) {
    ASSERT_TRUE(part.prose);
    kinds.push_back(part.prose->kind);
    read(read, part.prose->words);
  }
  EXPECT_EQ(links, (std::vector<std::string>{"https://example.org/?a=1&b=2", "02-next.md"}));
  EXPECT_NE(all.find("<div onclick=\"alert(1)\">A block of HTML.</div>"), std::string::npos);
  EXPECT_NE(all.find("A <b>bold</b> word, an image of a board, a script,"), std::string::npos);
  EXPECT_EQ(all.find("comment"), std::string::npos);
  using K = Prose::Kind;
  EXPECT_EQ(kinds, (std::vector<K>{K::paragraph, K::paragraph, K::table, K::numbered_list, K::quote,
                                   K::divider, K::divider}));
}

TEST(Host, IsAskedForPlainNamesOnly) {
  std::vector<std::string> asked;
  const Host host{[&](const std::string& name) -> Result<std::string, ReadFailure> {
    asked.push_back(name);
    if (name == "course.yaml")
      return std::string(
          "title: T\nchapters: [../a.md, /etc/passwd, 'a/b.md', .hidden, 'c\\d.md', '', ok.md, "
          "\"nul\\0.md\", 'file:x']\n");
    return ReadFailure{"there is no such file"};
  }};
  compile_course(host);
  EXPECT_EQ(asked, (std::vector<std::string>{"course.yaml", "ok.md"}));
}

}  // namespace
}  // namespace pointwright::lesson

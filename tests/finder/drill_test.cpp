#include "finder/drill.hpp"

#include <gtest/gtest.h>

#include <set>

#include "finder/tempting.hpp"
#include "lesson/lesson.hpp"
#include "rules/notation.hpp"
#include "tests/reference/reference.hpp"

namespace pointwright::finder {
namespace {

lesson::Compilation compiled(const std::string& text) {
  lesson::Host host;
  host.read = [&](const std::string&) -> Result<std::string, lesson::ReadFailure> { return text; };
  return lesson::compile_lesson(host, "exercises.md");
}

void expect_proved(const std::vector<Exercise>& set, const SideNames& names) {
  const std::string text = as_lesson(set, "Exercises", "A set.", "Made by a test", names);
  const auto lesson = compiled(text);
  for (const auto& diagnostic : lesson.diagnostics)
    ADD_FAILURE() << lesson::render(diagnostic, lesson.source_of(diagnostic));
  EXPECT_EQ(lesson.outcome(), lesson::Outcome::proved);
  EXPECT_GE(lesson.answers.proved, static_cast<int>(set.size()));
}

TEST(Drill, EveryTopicMakesASetThatALessonProves) {
  SideNames names;
  names.of = {"Ivory", "Walnut"};
  for (const Topic& topic : drill_topics()) {
    DrillOptions options;
    options.count = 6;
    options.names = names;
    const auto set = drill(topic, options);
    EXPECT_GE(set.size(), 4U) << topic.id;
    expect_proved(set, names);
    std::set<std::uint64_t> known;
    for (std::size_t i = 0; i < set.size(); ++i) {
      const Exercise& exercise = set[i];
      EXPECT_TRUE(known.insert(likeness(exercise)).second) << topic.id;
      EXPECT_EQ(exercise.topic, topic.id);
      EXPECT_TRUE(exercise.grade >= 1 && exercise.grade <= 3);
      if (i > 0) {
        EXPECT_GE(exercise.measure, set[i - 1].measure);
        EXPECT_GE(exercise.grade, set[i - 1].grade);
      }
      EXPECT_FALSE(exercise.why.empty());
    }
  }
}

// The plays that an exercise accepts are all the legal ones, by the slow generator, and each wrong
// play is refused.
TEST(Drill, AnswersAreRightByTheReference) {
  int plays = 0;
  for (const std::string_view id : {"must-play", "bearing-off", "coming-in"}) {
    DrillOptions options;
    options.count = 8;
    for (const Exercise& exercise : drill(*find_topic(id), options)) {
      ASSERT_EQ(exercise.kind, Exercise::Kind::play);
      const Position& p = exercise.position;
      const auto legal = reference::results(p.board, *p.turn, *p.roll);
      reference::Boards accepted;
      for (const Choice& right : exercise.right) {
        const Ruling ruling = rule_on(p, *read_play(right.text));
        EXPECT_TRUE(ruling.allowed);
        accepted.insert(ruling.after);
        ++plays;
      }
      EXPECT_EQ(accepted, legal) << to_text(p);
      for (const Choice& wrong : exercise.wrong)
        EXPECT_FALSE(rule_on(p, *read_play(wrong.text)).allowed) << to_text(p) << wrong.text;
    }
  }
  EXPECT_GT(plays, 10);
}

TEST(Drill, AMirrorImageIsAlike) {
  DrillOptions options;
  options.count = 1;
  Exercise exercise = drill(*find_topic("shots"), options).front();
  Exercise mirrored = exercise;
  mirrored.position.board = swapped(exercise.position.board);
  mirrored.position.turn = Side::dark;
  EXPECT_EQ(likeness(exercise), likeness(mirrored));
  EXPECT_NE(exercise.position, mirrored.position);
}

TEST(Drill, QueriesMakeExercisesToo) {
  DrillOptions options;
  options.count = 4;
  for (const std::string_view text : {"illegal hit because both-dice", "chance hit 11/36 to 20/36",
                                      "forced and bar", "plays 9", "checkers light 3"}) {
    const auto query = read_query(text);
    ASSERT_TRUE(query.ok());
    const auto set = drill(*query, options);
    EXPECT_GE(set.size(), 3U) << text;
    expect_proved(set, {});
  }
}

TEST(Drill, TheSameSeedMakesTheSameSet) {
  DrillOptions options;
  options.count = 5;
  const Topic& topic = *find_topic("larger-die");
  const auto text = [&] { return as_lesson(drill(topic, options), "T", "S", "", {}); };
  const std::string once = text();
  EXPECT_EQ(once, text());
  options.seed = 2;
  EXPECT_NE(once, text());
}

}  // namespace
}  // namespace pointwright::finder

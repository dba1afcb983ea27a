#include "tests/page/sample_course.hpp"

namespace pointwright {

namespace {

Inline plain(std::string text) {
  return {Inline::Kind::text, std::move(text), {}, {}};
}

Part prose(Prose::Kind kind, std::vector<Inline> words, int level = 0) {
  Part part;
  part.prose = Prose{kind, level, std::move(words), {}};
  return part;
}

Part scene(Scene scene) {
  Part part;
  part.scene = std::move(scene);
  return part;
}

Part question(Question question) {
  Part part;
  part.question = std::move(question);
  return part;
}

ProvedClaim claim(std::string text, std::string statement, std::string proof) {
  ProvedClaim claim;
  claim.text = std::move(text);
  claim.statement = std::move(statement);
  claim.proof = std::move(proof);
  return claim;
}

Step step(Step::Kind kind, std::string action, std::string words, std::string position) {
  Step step;
  step.kind = kind;
  step.action = std::move(action);
  step.words = std::move(words);
  step.position = std::move(position);
  return step;
}

const std::string doors = "light barx1 13x2 6x2; dark 6x2 5x2 3x2";

Scene doors_scene() {
  Scene scene;
  scene.id = "three-doors";
  scene.position = doors + "; light to play 4-2";
  scene.caption = "Linen on the bar. Its 19, 20 and 22 are shut; 24, 23 and 21 are open";
  scene.marks = {{Side::light, 24}, {Side::light, 23}, {Side::light, 21}};
  scene.steps.push_back(
      step(Step::Kind::say, "", "A four and a two. Both doors are open.", scene.position));
  Step refused =
      step(Step::Kind::attempt, "13/9 13/11", "Not before the checker is in.", scene.position);
  refused.arrows = {{Side::light, 13, 9, true}, {Side::light, 13, 11, true}};
  refused.ruling =
      "Linen has a checker on the bar, and it must come in before any other checker moves.";
  scene.steps.push_back(refused);
  Step entered = step(Step::Kind::move, "bar/21", "In with the four.",
                      "light 21x1 13x2 6x2; dark 6x2 5x2 3x2; light to play 4-2");
  entered.arrows = {{Side::light, 25, 21}};
  scene.steps.push_back(entered);
  Step last = step(Step::Kind::move, "13/11", "The two is free for anyone.",
                   "light 21x1 13x1 11x1 6x2; dark 6x2 5x2 3x2; dark to roll");
  last.arrows = {{Side::light, 13, 11}};
  scene.steps.push_back(last);
  scene.claims.push_back(
      claim("legal bar/21 13/11", "bar/21 13/11 may be played.",
            "The 4 brings the checker in on the open 21; the 2 then moves 13/11."));
  scene.claims.push_back(claim("illegal 13/9 13/11 because bar-first",
                               "13/9 13/11 may not be played: the bar comes first.",
                               "A Linen checker is on the bar."));
  return scene;
}

Scene cube_scene() {
  Scene scene;
  scene.id = "an-offer";
  scene.position = "light 6x5 5x5 4x3; dark 6x4 5x4 4x4 3x3; light to roll; match to 5 score 2-1";
  scene.view = {Side::dark, true, Side::dark};
  scene.steps.push_back(step(Step::Kind::offer, "2", "Linen turns the cube.", scene.position));
  scene.steps.push_back(step(
      Step::Kind::take, "2", "Denim takes, and holds it.",
      "light 6x5 5x5 4x3; dark 6x4 5x4 4x4 3x3; light to roll; cube 2 with dark; match to 5 score "
      "2-1"));
  scene.steps.push_back(step(
      Step::Kind::roll, "6-5", "And Linen rolls.",
      "light 6x5 5x5 4x3; dark 6x4 5x4 4x4 3x3; light to play 6-5; cube 2 with dark; match to 5 "
      "score 2-1"));
  return scene;
}

Question play_question() {
  Question question;
  question.id = "come-in";
  question.kind = Question::Kind::play;
  question.ask = {plain("Linen has rolled "),
                  {Inline::Kind::strong, "", "", {plain("4-2")}},
                  plain(". Bring the checker in with the two and play the four from the 13.")};
  question.position = doors + "; light to play 4-2";
  const auto add = [&](std::string play, bool legal, bool right, std::string reply) {
    question.plays.push_back({std::move(play), legal, right, "", std::move(reply)});
  };
  const std::string other = "The rules allow it, but it is not what was asked for.";
  add("bar/23 13/9", true, true, "");
  add("bar/21 13/11", true, false, other);
  add("bar/23/19", false, false, "The 19 is shut: two Denim checkers stand on it.");
  add("bar/21/19", false, false, "The 19 is shut: two Denim checkers stand on it.");
  add("bar/23 6/2", true, false, other);
  add("bar/21 6/4", true, false, other);
  add("13/9 13/11", false, false, "The checker on the bar comes in first.");
  question.explanation = "The two opens on the 23. Once in, the four is free.";
  return question;
}

Question choice_question() {
  Question question;
  question.id = "how-many";
  question.ask = {plain("How many points has the board?")};
  question.choices = {{{plain("Twelve.")}, false, "That is one side of the board."},
                      {{plain("Twenty-four.")}, true, "Six in each quarter."},
                      {{plain("Thirty.")}, false, "That is the number of checkers."}};
  question.explanation = "Four quarters of six points.";
  return question;
}

Question number_question() {
  Question question;
  question.id = "pips";
  question.kind = Question::Kind::number;
  question.ask = {plain("What is each side's pip count at the start?")};
  question.number = 167;
  question.explanation = "24x2, 13x5, 8x3 and 6x5 make 167.";
  return question;
}

Chapter chapter(std::string id, std::string title, std::string summary) {
  Chapter chapter;
  chapter.file = id + ".md";
  chapter.id = std::move(id);
  chapter.title = std::move(title);
  chapter.summary = std::move(summary);
  chapter.names.of = {"Linen", "Denim"};
  return chapter;
}

}  // namespace

Storyboard sample_course() {
  Storyboard course;
  course.title = "Two evenings at the board";
  course.summary = "A short course to try a page with: one of everything that a page can show.";
  course.author = "The pattern maker";

  Chapter first = chapter("the-board", "The board", "Twenty-four points and a bar.");
  first.parts.push_back(
      prose(Prose::Kind::paragraph,
            {plain("The board has four quarters. "),
             {Inline::Kind::emphasis, "", "", {plain("Six points")}},
             plain(" to each; see "),
             {Inline::Kind::link, "", "coming-in.md", {plain("the next chapter")}},
             plain(" for the bar.")}));
  first.parts.push_back(prose(Prose::Kind::heading, {plain("Where the checkers stand")}, 2));
  Scene start;
  start.id = "start";
  start.position = "light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5";
  start.caption = "The position of a new game";
  start.claims.push_back(claim("pips light 167", "Linen's pip count is 167.",
                               "2 x 24 + 5 x 13 + 3 x 8 + 5 x 6 = 167."));
  first.parts.push_back(scene(start));
  first.parts.push_back(question(choice_question()));
  first.parts.push_back(question(number_question()));
  course.chapters.push_back(std::move(first));

  Chapter second = chapter("coming-in", "Coming in from the bar",
                           "A hit checker must come in before anything else moves.");
  second.parts.push_back(
      prose(Prose::Kind::paragraph, {plain("A checker on the bar has one errand: to come in.")}));
  second.parts.push_back(scene(doors_scene()));
  second.parts.push_back(question(play_question()));
  course.chapters.push_back(std::move(second));

  Chapter third = chapter("the-cube", "The cube", "An offer, and what becomes of it.");
  third.parts.push_back(scene(cube_scene()));
  course.chapters.push_back(std::move(third));
  return course;
}

}  // namespace pointwright

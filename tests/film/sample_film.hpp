#pragma once

#include <initializer_list>
#include <string>
#include <utility>

#include "film/shots.hpp"

namespace pointwright::film {

/// A course of one scene in which these words are said, one step each, with the seconds asked for
/// (0: none).
inline Storyboard spoken_course(std::initializer_list<std::pair<std::string, double>> steps) {
  const std::string position = "light 6x2; dark 5x2; light to play 6-4";
  Scene scene;
  scene.id = "board";
  scene.position = position;
  for (const auto& [words, seconds] : steps) {
    Step step;
    step.words = words;
    step.position = position;
    if (seconds > 0) step.seconds = seconds;
    scene.steps.push_back(step);
  }
  Chapter chapter;
  chapter.id = "chapter";
  chapter.title = "A <b>chapter</b> & more";
  Part part;
  part.scene = scene;
  chapter.parts.push_back(part);
  Storyboard storyboard;
  storyboard.chapters.push_back(chapter);
  return storyboard;
}

}  // namespace pointwright::film

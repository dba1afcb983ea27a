#pragma once

#include <string>
#include <vector>

#include "storyboard/storyboard.hpp"

/// The parts of a storyboard as texts to compare: equal parts give equal texts, different ones
/// different texts. Where a part stands in the lesson's text is left out.
namespace pointwright::film {

/// Words with their dress, as an author would write them: "*all* of [it](page.html)".
std::string dressed(const std::vector<Inline>& words);

std::string text_of(const Prose& prose);
std::string text_of(const ProvedClaim& claim);

/// What happens in a step and what is pointed at, without what is said.
std::string action_of(const Step& step);
/// What happens, what is said, and the position that it leads to.
std::string text_of(const Step& step);

/// How a board looks and what it is called, each as "name: value".
std::vector<std::string> look_of(const Scene& scene);
std::vector<std::string> text_of(const Question& question);
/// Of the course: title, summary, author, language.
std::vector<std::string> head_of(const Storyboard& course);
/// Of a chapter: title, summary, what the sides are called, its file.
std::vector<std::string> head_of(const Chapter& chapter);

}  // namespace pointwright::film

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "storyboard/storyboard.hpp"

/// What has changed between two versions of a course.
namespace pointwright::film {

struct RevisionItem {
  enum class What {
    course,    ///< its title, its author, what the sides are called
    chapter,   ///< a chapter that is new or gone
    order,     ///< the order of chapters, or of what is in a chapter
    text,      ///< what is read
    board,     ///< a board that is new or gone, its position, its caption
    look,      ///< what is pointed at, how the board is seen, how long something takes
    step,      ///< what happens on a board
    words,     ///< what is said, where nothing else about the step has changed
    claim,     ///< what was proved, and why
    question,  ///< an exercise, its answers, the replies to them
  };
  What what = What::text;
  std::string chapter_id;  ///< empty for the course as a whole
  std::string chapter;     ///< the title in the newer version, or in the older one if it is gone
  std::string where;       ///< the board or the question; empty for a chapter or its text
  std::string before;      ///< empty: it is new
  std::string after;       ///< empty: it is gone
};

/// "claim", "words", …
std::string_view name(RevisionItem::What what);

/// Compares two versions: everything that a storyboard holds except where it stands in the lesson's
/// text. Chapters, boards and questions are matched by their names, everything else by what it
/// says. In reading order of the newer version, after the chapters that are gone.
std::vector<RevisionItem> compare(const Storyboard& before, const Storyboard& after);

/// A note to pin under the published lesson: the corrections, chapter by chapter, in the words of
/// learners. Empty when nothing has changed that a learner reads, hears or is told to answer.
std::string pinned_note(const Storyboard& after, const std::vector<RevisionItem>& changes);

}  // namespace pointwright::film

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "rules/ruling.hpp"

/// The storyboard is the waist of Pointwright: a lesson becomes a storyboard, every output is made
/// from one. Everything in it has been proved. Positions and plays are kept as canonical text, so
/// that the JSON form (docs/storyboard.schema.json) says the same as these structs.
namespace pointwright {

/// Text as the author wrote it, already parsed; an output never reads Markdown.
struct Inline {
  enum class Kind { text, emphasis, strong, code, link, line_break };
  Kind kind = Kind::text;
  std::string text;              ///< of text and code
  std::string href;              ///< of a link; only http, https, mailto, or a relative address
  std::vector<Inline> children;  ///< of emphasis, strong and link
};

struct Prose {
  enum class Kind {
    heading,
    paragraph,
    bullet_list,
    numbered_list,
    item,
    quote,
    table,
    row,
    cell,
    code,     ///< text to be shown as typed, line by line
    divider,  ///< a line between two pieces of prose; has nothing inside
  };
  Kind kind = Kind::paragraph;
  int level = 0;                ///< of a heading: 1 to 6
  std::vector<Inline> words;    ///< of heading, paragraph, cell, and code (one piece of text)
  std::vector<Prose> children;  ///< of lists, items, quotes, tables and rows
};

/// Where a thing stands in the lesson's text. Lines and columns count from 1.
struct Source {
  std::string file;
  int line = 0;
  int column = 0;
};

/// How a claim or a number is known.
struct HowKnown {
  enum class Kind { exact, searched, sampled };
  Kind kind = Kind::exact;
  int depth = 0;                ///< of searched
  double standard_error = 0.0;  ///< of sampled
};

struct ProvedClaim {
  std::string kind;       ///< stable name of the claim kind: "must-use-both"
  std::string text;       ///< as written in the lesson
  std::string statement;  ///< as a sentence for readers
  std::string proof;      ///< why it is true, in one to three sentences
  HowKnown known;
  Source source;
};

/// An arrow from place to place, as `side` counts.
struct Arrow {
  Side side = Side::light;
  Place from = 0;
  Place to = 0;
  bool refused = false;  ///< drawn as an attempt that the referee refused
};

/// A point to point at, as `side` counts.
struct Mark {
  Side side = Side::light;
  Place place = 0;
};

/// One thing that changes on the board, with the words spoken meanwhile.
struct Step {
  enum class Kind { say, roll, move, attempt, offer, take, drop, place };  // place: a new set-up
  Kind kind = Kind::say;
  std::string action;    ///< as canonical text: "6-4", "24/18/14", ""
  std::string words;     ///< what the teacher says
  std::string position;  ///< the position line after this step
  std::vector<Arrow> arrows;
  std::vector<Mark> marks;
  std::optional<std::string> ruling;  ///< of an attempt: why it was refused
  std::optional<double> seconds;      ///< a duration that the author asked for
  Source source;
};

/// How the board is seen.
struct View {
  Side bottom = Side::light;     ///< whose home is at the bottom
  bool home_on_left = false;     ///< whether the bottom side bears off to the left
  Side numbering = Side::light;  ///< whose numbers the points carry
  bool bare = false;             ///< without pip counts and the checkers borne off
};

/// One staged moment: a board, what happens on it, and what is claimed about it.
struct Scene {
  std::string id;        ///< unique in the chapter, from the board block
  std::string position;  ///< position line at the start
  std::string caption;
  View view;
  std::vector<Arrow> arrows;
  std::vector<Mark> marks;
  std::vector<Step> steps;
  std::vector<ProvedClaim> claims;
  Source source;
};

/// Something for the learner to answer.
struct Question {
  enum class Kind { choice, play, number };
  std::string id;
  Kind kind = Kind::choice;
  std::vector<Inline> ask;
  std::string position;  ///< empty when the question needs no board
  View view;
  struct Choice {
    std::vector<Inline> text;
    bool right = false;
    std::string reply;  ///< what the teacher says when it is picked
  };
  std::vector<Choice> choices;  ///< of choice
  /// Of play: every legal play with its ruling, and near misses with theirs, so that a page
  /// without an engine can answer whatever the board lets the learner do.
  struct PlayAnswer {
    std::string play;    ///< canonical when legal, else as a learner would try it
    bool legal = false;  ///< whether the referee allows it
    bool right = false;  ///< whether it answers the question; only legal plays do
    std::string after;   ///< of a legal play: the checkers then, "light ...; dark ..."
    std::string reply;   ///< what the teacher or the referee says to it
  };
  std::vector<PlayAnswer> plays;
  double number = 0.0;  ///< of number
  double tolerance = 0.0;
  std::string explanation;
  std::vector<ProvedClaim> claims;  ///< what proves the right answers
  Source source;
};

/// One piece of a chapter, in reading order: exactly one of the three is set.
struct Part {
  std::optional<Prose> prose;
  std::optional<Scene> scene;
  std::optional<Question> question;
};

struct Chapter {
  std::string id;    ///< from the file's name; unique in the course
  std::string file;  ///< the lesson file, relative to the course folder
  std::string title;
  std::string summary;
  std::vector<Part> parts;
  SideNames names;
};

struct Storyboard {
  static constexpr int version = 1;
  std::string title;
  std::string summary;
  std::string author;
  std::string language = "en";  ///< BCP 47
  std::vector<Chapter> chapters;
};

}  // namespace pointwright

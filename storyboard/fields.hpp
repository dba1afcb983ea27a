#pragma once

#include <array>
#include <concepts>
#include <string_view>
#include <type_traits>

#include "storyboard/storyboard.hpp"

/// What the JSON form of a storyboard consists of, written once. The writer, the reader and the
/// schema each visit these fields, so the three cannot disagree.
namespace pointwright::storyboard_form {

/// How deep prose may nest in a storyboard that is read.
inline constexpr int deepest = 100;

/// S is T, const or not: the writer visits const values, the reader fills others.
template <class S, class T>
concept Is = std::same_as<std::remove_const_t<S>, T>;

/// The JSON names of an enumeration's values, in their order.
template <class Enum>
struct EnumNames;
template <>
struct EnumNames<Side> {
  static constexpr std::array<std::string_view, 2> list{"light", "dark"};
};
template <>
struct EnumNames<Inline::Kind> {
  static constexpr std::array<std::string_view, 6> list{"text", "emphasis", "strong",
                                                        "code", "link",     "line-break"};
};
template <>
struct EnumNames<Prose::Kind> {
  static constexpr std::array<std::string_view, 11> list{
      "heading", "paragraph", "bullet-list", "numbered-list", "item",   "quote",
      "table",   "row",       "cell",        "code",          "divider"};
};
template <>
struct EnumNames<HowKnown::Kind> {
  static constexpr std::array<std::string_view, 3> list{"exact", "searched", "sampled"};
};
template <>
struct EnumNames<Step::Kind> {
  static constexpr std::array<std::string_view, 8> list{"say",   "roll", "move", "attempt",
                                                        "offer", "take", "drop", "place"};
};
template <>
struct EnumNames<Question::Kind> {
  static constexpr std::array<std::string_view, 3> list{"choice", "play", "number"};
};

/// The name under which the schema defines a struct.
template <class Struct>
constexpr std::string_view struct_name;
template <>
inline constexpr std::string_view struct_name<Inline> = "inline";
template <>
inline constexpr std::string_view struct_name<Prose> = "prose";
template <>
inline constexpr std::string_view struct_name<Source> = "source";
template <>
inline constexpr std::string_view struct_name<HowKnown> = "how-known";
template <>
inline constexpr std::string_view struct_name<ProvedClaim> = "proved-claim";
template <>
inline constexpr std::string_view struct_name<Arrow> = "arrow";
template <>
inline constexpr std::string_view struct_name<Mark> = "mark";
template <>
inline constexpr std::string_view struct_name<Step> = "step";
template <>
inline constexpr std::string_view struct_name<View> = "view";
template <>
inline constexpr std::string_view struct_name<Scene> = "scene";
template <>
inline constexpr std::string_view struct_name<Question::Choice> = "choice";
template <>
inline constexpr std::string_view struct_name<Question::PlayAnswer> = "play-answer";
template <>
inline constexpr std::string_view struct_name<Question> = "question";
template <>
inline constexpr std::string_view struct_name<Part> = "part";
template <>
inline constexpr std::string_view struct_name<SideNames> = "side-names";
template <>
inline constexpr std::string_view struct_name<Chapter> = "chapter";
template <>
inline constexpr std::string_view struct_name<Storyboard> = "storyboard";

template <class Visitor, Is<Inline> S>
void fields(Visitor& v, S& s) {
  v.field("kind", s.kind, "what it is");
  v.field("text", s.text, "of text and code: the characters, not escaped");
  v.field("href", s.href, "of a link: an http, https, mailto or relative address");
  v.field("children", s.children, "of emphasis, strong and link");
}

template <class Visitor, Is<Prose> S>
void fields(Visitor& v, S& s) {
  v.field("kind", s.kind, "what it is");
  v.field("level", s.level, "of a heading: 1 to 6; otherwise 0");
  v.field("words", s.words, "of heading, paragraph, cell and code");
  v.field("children", s.children, "of lists, items, quotes, tables and rows");
}

template <class Visitor, Is<Source> S>
void fields(Visitor& v, S& s) {
  v.field("file", s.file, "the lesson file, relative to the course folder");
  v.field("line", s.line, "from 1");
  v.field("column", s.column, "in characters, from 1");
}

template <class Visitor, Is<HowKnown> S>
void fields(Visitor& v, S& s) {
  v.field("kind", s.kind, "how the claim or number is known");
  v.field("depth", s.depth, "of searched");
  v.field("standardError", s.standard_error, "of sampled");
}

template <class Visitor, Is<ProvedClaim> S>
void fields(Visitor& v, S& s) {
  v.field("kind", s.kind, "name of the claim kind in docs/claims.md");
  v.field("text", s.text, "as written in the lesson");
  v.field("statement", s.statement, "as a sentence for readers");
  v.field("proof", s.proof, "why it is true");
  v.field("known", s.known, "how it is known");
  v.field("source", s.source, "where it is written");
}

template <class Visitor, Is<Arrow> S>
void fields(Visitor& v, S& s) {
  v.field("side", s.side, "whose numbering is used");
  v.field("from", s.from, "25 is the bar");
  v.field("to", s.to, "0 is off the board");
  v.field("refused", s.refused, "whether it shows an attempt that the referee refused");
}

template <class Visitor, Is<Mark> S>
void fields(Visitor& v, S& s) {
  v.field("side", s.side, "whose numbering is used");
  v.field("place", s.place, "25 is the bar, 0 is off the board");
}

template <class Visitor, Is<Step> S>
void fields(Visitor& v, S& s) {
  v.field("kind", s.kind, "what happens; place sets up a new position");
  v.field("action", s.action, "as canonical text: 6-4, or 24/18/14; may be empty");
  v.field("words", s.words, "what the teacher says, not escaped");
  v.field("position", s.position, "the position line after this step");
  v.field("arrows", s.arrows, "the moves made or attempted");
  v.field("marks", s.marks, "places to point at");
  v.field("ruling", s.ruling, "of an attempt: why it was refused");
  v.field("seconds", s.seconds, "a duration that the author asked for");
  v.field("source", s.source, "where it is written");
}

template <class Visitor, Is<View> S>
void fields(Visitor& v, S& s) {
  v.field("bottom", s.bottom, "whose home is at the bottom");
  v.field("homeOnLeft", s.home_on_left, "whether the bottom side bears off to the left");
  v.field("numbering", s.numbering, "whose numbers the points carry");
  v.field("bare", s.bare, "without pip counts and the checkers borne off");
}

template <class Visitor, Is<Scene> S>
void fields(Visitor& v, S& s) {
  v.field("id", s.id, "unique in the chapter");
  v.field("position", s.position, "the position line at the start");
  v.field("caption", s.caption, "a line below the diagram, not escaped");
  v.field("view", s.view, "how the board is seen");
  v.field("arrows", s.arrows, "drawn at the start");
  v.field("marks", s.marks, "drawn at the start");
  v.field("steps", s.steps, "what happens, in order");
  v.field("claims", s.claims, "what was claimed about the scene and proved");
  v.field("source", s.source, "where it is written");
}

template <class Visitor, Is<Question::Choice> S>
void fields(Visitor& v, S& s) {
  v.field("text", s.text, "what may be picked");
  v.field("right", s.right, "whether it is right");
  v.field("reply", s.reply, "what the teacher says when it is picked, not escaped");
}

template <class Visitor, Is<Question::PlayAnswer> S>
void fields(Visitor& v, S& s) {
  v.field("play", s.play, "canonical when legal, else as a learner would try it");
  v.field("legal", s.legal, "whether the referee allows it");
  v.field("right", s.right, "whether it answers the question");
  v.field("after", s.after, "of a legal play: the checkers then");
  v.field("reply", s.reply, "what the teacher or the referee says to it");
}

template <class Visitor, Is<Question> S>
void fields(Visitor& v, S& s) {
  v.field("id", s.id, "unique in the chapter");
  v.field("kind", s.kind, "how it is answered");
  v.field("ask", s.ask, "the question");
  v.field("position", s.position, "a position line; empty when no board is needed");
  v.field("view", s.view, "how the board is seen");
  v.field("choices", s.choices, "of choice");
  v.field("plays", s.plays, "of play: every legal play, and near misses with the refusal");
  v.field("number", s.number, "of number");
  v.field("tolerance", s.tolerance, "of number: how far from it is still right");
  v.field("explanation", s.explanation, "shown afterwards, not escaped");
  v.field("claims", s.claims, "what proves the right answers");
  v.field("source", s.source, "where it is written");
}

template <class Visitor, Is<Part> S>
void fields(Visitor& v, S& s) {
  v.field("prose", s.prose, "exactly one of the three is set");
  v.field("scene", s.scene, "exactly one of the three is set");
  v.field("question", s.question, "exactly one of the three is set");
}

template <class Visitor, Is<SideNames> S>
void fields(Visitor& v, S& s) {
  v.field("light", s.of[0], "what readers call the light side");
  v.field("dark", s.of[1], "what readers call the dark side");
}

template <class Visitor, Is<Chapter> S>
void fields(Visitor& v, S& s) {
  v.field("id", s.id, "unique in the course; fit for an address");
  v.field("file", s.file, "the lesson file, relative to the course folder");
  v.field("title", s.title, "not escaped");
  v.field("summary", s.summary, "may be empty");
  v.field("names", s.names, "what the sides are called");
  v.field("parts", s.parts, "in reading order");
}

template <class Visitor, Is<Storyboard> S>
void fields(Visitor& v, S& s) {
  v.field("title", s.title, "not escaped");
  v.field("summary", s.summary, "may be empty");
  v.field("author", s.author, "may be empty");
  v.field("language", s.language, "a BCP 47 tag");
  v.field("chapters", s.chapters, "in reading order");
}

}  // namespace pointwright::storyboard_form

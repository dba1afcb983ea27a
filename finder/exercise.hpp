#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "finder/search.hpp"
#include "rules/ruling.hpp"

/// Exercises: one position and one question on it, with the answer and its proof.
namespace pointwright::finder {

/// A choice, or a play that somebody may try: what is answered to it, and why.
struct Choice {
  std::string text;   ///< a play where the question asks for one
  std::string reply;  ///< for a wrong one the rule that it breaks, with its proof on this board
};

struct Exercise {
  enum class Kind : std::uint8_t {
    play,    ///< make a play; `right` lists all that are accepted
    choice,  ///< one of several answers is right
    number,  ///< write a number
  };
  Kind kind = Kind::choice;
  std::string topic;
  Position position;
  std::string ask;
  std::vector<Choice> right;
  std::vector<Choice> wrong;
  int number = 0;
  std::string claim;  ///< the claim of a lesson that proves the answer; empty for plays
  std::string why;    ///< the explanation shown afterwards
  int measure = 0;    ///< how much there is to look at; see docs/finder.md
  int grade = 1;      ///< 1 to 3: which third of its set it is in, by measure
};

/// Equal for two exercises that are the same but for the colours of the sides.
std::uint64_t likeness(const Exercise& exercise);

// One exercise on a finding; nothing where the finding does not serve for it.

/// Is this play allowed? `refused`: the play is one that `rule` refuses, else one that is legal.
std::optional<Exercise> ask_ruling(const Finding& finding, Side side, const Rule& rule,
                                   bool refused, const SideNames& names, Random& random);

/// Play the roll. Nothing where more than four plays are legal.
std::optional<Exercise> ask_play(const Finding& finding, Side side, const SideNames& names);

/// How many of the 36 rolls bring the event about?
std::optional<Exercise> ask_chance(const Finding& finding, Side side, const chance::Query& query,
                                   const SideNames& names);

/// What is a side's pip count?
std::optional<Exercise> ask_pips(const Finding& finding, Side side, const SideNames& names);

/// Who is ahead, and by how much?
std::optional<Exercise> ask_race(const Finding& finding, Side side, const SideNames& names,
                                 Random& random);

/// How many legal plays has the roll?
std::optional<Exercise> ask_count(const Finding& finding, Side side, const SideNames& names);

/// A set as a lesson file, which `pointwright check` proves. `remark` stands in it as a comment.
std::string as_lesson(const std::vector<Exercise>& exercises, std::string_view title,
                      std::string_view summary, std::string_view remark, const SideNames& names);

}  // namespace pointwright::finder

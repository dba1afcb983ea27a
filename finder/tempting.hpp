#pragma once

#include <string>
#include <vector>

#include "finder/facts.hpp"
#include "rules/rulebook.hpp"

/// Plays that somebody might try and that the rules refuse. "Some play is refused by this rule"
/// would be true of nearly every position if any scrap of a play counted; so for each rule it is
/// said here which plays count. The referee has the last word: see `is_refused`.
namespace pointwright::finder {

/// A play that tempts, and the board that it would lead to if nobody objected.
struct Tempting {
  Play play;
  Board after;
};

/// What counts as a tempting play for one rule of play.
struct Temptation {
  const Rule* rule;
  std::string_view says;  ///< for the reference
  /// Lists the tempting plays that the rule refuses, at most `most` of them; clears `found` first.
  /// Precondition: the position has a roll.
  void (*list)(Facts& facts, std::size_t most, std::vector<Tempting>& found);
};

/// One for each rule of play, in the order of the rule book.
const std::vector<Temptation>& temptations();

/// The temptation of that rule; null for a rule that refuses no play.
const Temptation* temptation_of(const Rule& rule);

/// Whether the referee refuses the play by this rule.
bool is_refused(const Position& position, const Play& play, const Rule& rule);

/// The play as it is written in a claim.
std::string written(const Tempting& tempting);

}  // namespace pointwright::finder

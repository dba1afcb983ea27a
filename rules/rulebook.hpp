#pragma once

#include <span>
#include <string_view>

namespace pointwright {

/// One rule of the game. Each rule is written down once, in a chapter under rules/book/; the rule
/// book, error texts, `explain` and the pages are made from it.
struct Rule {
  /// `play` holds the rules by which a play is refused; the others say how the game goes on.
  enum class About { play, turn, game, cube, match };
  std::string_view id;  ///< stable: "bar-first"
  About about;
  std::string_view statement;    ///< one line, as a referee would say it
  std::string_view explanation;  ///< a short paragraph for learners
  std::string_view source;       ///< where the rule is written, or "common practice"
  std::string_view example;      ///< a position line that shows it, with a roll where one matters
  std::string_view attempt;      ///< for rules of play: a play that this rule refuses in `example`
};

/// Every rule, in the order of the rule book. Each one is an object of its own, such as
/// book::bar_first, so that rules may be compared by address.
std::span<const Rule* const> rulebook();

/// The rule of that id, or nullptr.
const Rule* find_rule(std::string_view id);

}  // namespace pointwright

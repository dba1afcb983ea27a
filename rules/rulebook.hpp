#pragma once

#include <span>
#include <string_view>

namespace pointwright {

/// One rule of the game. Each rule is written down once, here; the rule book, error texts,
/// `explain` and the pages are made from it.
struct Rule {
  enum class About { play, turn, game, cube, match };
  std::string_view id;           ///< stable: "bar-first"
  About about;
  std::string_view statement;    ///< one line, as a referee would say it
  std::string_view explanation;  ///< a short paragraph for learners
  std::string_view source;       ///< where the rule is written, or "common practice"
  std::string_view example;      ///< a position line that shows it, with a roll where one matters
  std::string_view attempt;      ///< for rules of play: a play that this rule refuses in `example`
};

/// Every rule, in the order of the rule book.
std::span<const Rule> rulebook();

/// The rule of that id, or nullptr.
const Rule* find_rule(std::string_view id);

}  // namespace pointwright

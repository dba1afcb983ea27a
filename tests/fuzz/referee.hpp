#pragma once

#include <algorithm>
#include <vector>

#include "rules/ruling.hpp"
#include "tests/fuzz/require.hpp"

namespace pointwright::fuzz {

/// Rules on an attempt and checks the ruling against the list of legal plays.
/// Precondition: the position has a turn and a roll.
inline void require_good_ruling(const Position& position, const Attempt& attempt) {
  const Side side = position.turn.value();
  const std::vector<LegalPlay> legal = legal_plays(position.board, side, position.roll.value());
  const Ruling ruling = rule_on(position, attempt);
  const auto is_listed = [&](const Board& board) {
    return std::ranges::any_of(legal, [&](const LegalPlay& play) { return play.after == board; });
  };

  if (!ruling.allowed) {
    require(ruling.rule != nullptr, "a refusal names its rule");
    require(find_rule(ruling.rule->id) == ruling.rule, "the rule stands in the rule book");
    require(!ruling.proof.empty(), "a refusal has a proof");
    require(legal.empty() || !ruling.alternatives.empty(),
            "a refusal shows a legal play where there is one");
    for (const Play& play : ruling.alternatives) {
      require(is_listed(after(position.board, side, play)), "an alternative is legal");
    }
    return;
  }

  require(after(position.board, side, ruling.play) == ruling.after, "the play leads to its board");
  require(is_listed(ruling.after) || (legal.empty() && ruling.play.empty()),
          "what the referee allows is in the list of legal plays");
  const auto again = read_play(to_text(ruling.play));
  require(again.ok(), "the printed play can be read");
  const Ruling second = rule_on(position, *again);
  require(second.allowed && second.after == ruling.after, "the printed play is the same play");
}

}  // namespace pointwright::fuzz

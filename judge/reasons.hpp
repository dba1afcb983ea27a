#pragma once

#include <string>
#include <vector>

#include "judge/facts.hpp"
#include "judge/replies.hpp"
#include "rules/ruling.hpp"

namespace pointwright::judge {

/// A play with everything that reasons are made from.
struct Considered {
  LegalPlay play;
  PlayFacts facts;
  Shots shots;  ///< of the other side, next turn
  Look look;
};

/// Considers a play of `side` from `before`. `valuation` is that of `side`.
Considered consider(const Evaluator& evaluator, const Board& before, Side side,
                    const LegalPlay& play, const Valuation& valuation);

/// One sentence of a reason. Every number in it comes from the two plays considered.
struct Reason {
  enum class Kind {
    difference,  ///< how much the plays differ, one roll ahead
    replies,     ///< rolls of the other side that tell the plays apart
    ends,        ///< how the games end
    board,       ///< what one of the plays leaves on the board
  };
  Kind kind = Kind::board;
  std::string text{};
  double share = 0;  ///< the part of the difference that it accounts for; of `board` 0
};

/// Why the first play is better or worse than the second, as looked at one roll ahead: first the
/// difference, then what makes it up, the largest measured parts first, then what each play leaves
/// on the board. Parts that are too small to tell anything are left out.
std::vector<Reason> reasons(const Considered& first, const Considered& second, Side side,
                            const Valuation& valuation, const SideNames& names = {});

/// What a play leaves on the board in one sentence: "8/5 6/5 makes the 5 and leaves no blot".
std::string board_sentence(const Considered& play, Side side, const SideNames& names = {});

/// A kind of reply after "dark's best reply": "hits".
std::string_view phrase(ReplyKind kind);

}  // namespace pointwright::judge

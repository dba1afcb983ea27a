#pragma once

#include <string_view>
#include <vector>

#include "chance/next_roll.hpp"
#include "judge/evaluator.hpp"
#include "judge/valuation.hpp"
#include "rules/play.hpp"

namespace pointwright::judge {

/// What a reply does, the first of these that is true of it.
enum class ReplyKind : std::uint8_t {
  wins,     ///< bears off the last checker
  hits,     ///< hits a blot
  stuck,    ///< no move is legal
  waits,    ///< a checker stays on the bar
  anchors,  ///< makes a point in the home board of the side that it answers
  closes,   ///< makes a point in its own home board, or its 7
  escapes,  ///< gets a checker out of the home board of the side that it answers
  enters,   ///< brings in every checker from the bar, and nothing of the above
  quiet,    ///< nothing of the above
  calm,     ///< of groups alone: any of the five above
};

/// Whether a kind is one of the five that a group may take together as `calm`.
constexpr bool is_calm(ReplyKind kind) {
  return kind >= ReplyKind::anchors;
}

/// The other side's best answer with one roll to a play, as judged at once.
struct Reply {
  Roll roll;
  Play play{};  ///< empty when no move is legal
  ReplyKind kind = ReplyKind::quiet;
  Chances chances{};  ///< of the side that made the first play, now on roll again
  double worth = 0;   ///< of these chances, by its valuation
};

/// A play looked at one roll ahead: the other side's best answer to it with each of the 21 rolls.
struct Look {
  std::vector<Reply> replies;  ///< in the order of all_rolls(); none when the play ends the game
  Chances chances;             ///< the average over the 36 throws
  double worth = 0;            ///< likewise, to the side that made the play
};

/// What kind of reply a play of the side of `next` is.
ReplyKind kind_of(const chance::NextRoll& next, const Play& play, const Board& after);

/// Looks at the board that `side` has left, the other side to roll. `next` is that side's next roll
/// from there; `valuation` is that of `side`.
Look look(const Evaluator& evaluator, const chance::NextRoll& next, const Valuation& valuation);

/// Rolls that do one thing to one play and one thing, perhaps another, to a second. Calm replies
/// are told apart only where both plays get the same kind.
struct ReplyGroup {
  ReplyKind first = ReplyKind::quiet;
  ReplyKind second = ReplyKind::quiet;
  std::vector<Roll> rolls{};
  int ways = 0;      ///< of 36
  double mean = 0;   ///< what the first play is worth more than the second after these rolls
  double share = 0;  ///< ways / 36 of that: the shares add up to the whole difference
};

/// The 21 rolls in groups, the largest share (of either sign) first. Precondition: neither play
/// ends the game.
std::vector<ReplyGroup> compare(const Look& first, const Look& second);

}  // namespace pointwright::judge

#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "chance/event.hpp"

namespace pointwright::chance {

/// Chooses the reply of the other side: gives an index into `plays`, which is not empty.
using Chooser =
    std::function<std::size_t(const Board& before, Side side, const std::vector<LegalPlay>& plays)>;

/// The reply that leads most in the race after it, the first one of several.
std::size_t best_by_pips(const Board& before, Side side, const std::vector<LegalPlay>& plays);

/// A chance over three rolls (mine, the reply, mine again), exact, as parts of 36 * 36 * 36.
/// When any legal reply is allowed there are two: the reply that is worst and that is best for me.
struct ThreeRollChance {
  static constexpr std::int64_t whole = std::int64_t{36} * 36 * 36;
  std::int64_t least = 0;
  std::int64_t most = 0;
};

/// The chance that `side` brings the event about with this roll or, failing that, with its next.
/// Where this roll cannot do it, `side` makes the play that leaves the best chance of doing it next
/// time (judged by `least`). Without a chooser the other side may answer as it likes.
ThreeRollChance now_or_next(const Board& board, Side side, const Event& event,
                            const Chooser& reply = {});

}  // namespace pointwright::chance

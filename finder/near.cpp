#include "finder/near.hpp"

#include <algorithm>
#include <cstdlib>
#include <set>

namespace pointwright::finder {
namespace {

/// Calls `with(nudge, board)` for every board that differs by one checker.
template <class With>
void each_nudge(const Board& board, const With& with) {
  for (const Side side : {Side::light, Side::dark}) {
    for (Place from = 0; from <= bar_place; ++from) {
      if (board.count(side, from) == 0) continue;
      for (Place to = 0; to <= bar_place; ++to) {
        const bool point = to != off_place && to != bar_place;
        if (to == from || (point && board.count(opponent(side), mirrored(to)) > 0)) continue;
        Board changed = board;
        --changed.of(side)[from];
        ++changed.of(side)[to];
        if (in_play(changed, side) > 0) with(Nudge{side, from, to}, changed);
      }
    }
  }
}

/// How much a change disturbs: pips that checkers move, those put on or taken off the board as if
/// from far away.
int disturbance(const Neighbour& neighbour) {
  constexpr int on_or_off = 30;
  int sum = 0;
  for (const Nudge& nudge : neighbour.nudges) {
    const bool off = nudge.from == off_place || nudge.to == off_place;
    sum += off ? on_or_off : std::abs(nudge.from - nudge.to);
  }
  return sum;
}

class Neighbourhood {
 public:
  Neighbourhood(const Wanted& wanted, bool untrue)
      : query_(wanted.query), untrue_(untrue), rolls_(open_rolls(wanted)), facts_(wanted.side) {}

  /// The finding if the board answers as wanted.
  std::optional<Finding> answer(const Board& board) {
    ++looked_at;
    for (const auto& roll : rolls_) {
      facts_.look_at(board, roll);
      const bool holds = query_.truth(facts_) == Truth::yes;
      if (holds) return untrue_ ? std::nullopt : std::optional(Finding{board, roll});
    }
    if (!untrue_) return std::nullopt;
    return Finding{board, rolls_.size() == 1 ? rolls_.front() : std::nullopt};
  }

  std::int64_t looked_at = 0;

 private:
  const Query& query_;
  bool untrue_;
  std::vector<std::optional<Roll>> rolls_;
  Facts facts_;
};

}  // namespace

Neighbours neighbours(const Wanted& wanted, const Board& board, bool untrue) {
  Neighbourhood around(wanted, untrue);
  Neighbours result;
  result.true_already = around.answer(board).has_value();
  if (result.true_already) {
    result.looked_at = around.looked_at;
    return result;
  }
  each_nudge(board, [&](const Nudge& nudge, const Board& changed) {
    if (const auto finding = around.answer(changed)) result.found.push_back({{nudge}, *finding});
  });
  result.checkers = 1;
  if (result.found.empty()) {
    result.checkers = 2;
    std::set<std::uint64_t> seen;
    each_nudge(board, [&](const Nudge& first, const Board& once) {
      each_nudge(once, [&](const Nudge& second, const Board& twice) {
        if (!seen.insert(hash(twice)).second) return;
        if (const auto finding = around.answer(twice))
          result.found.push_back({{first, second}, *finding});
      });
    });
  }
  if (result.found.empty()) result.checkers = 0;
  std::stable_sort(result.found.begin(), result.found.end(),
                   [](const auto& a, const auto& b) { return disturbance(a) < disturbance(b); });
  result.looked_at = around.looked_at;
  return result;
}

}  // namespace pointwright::finder

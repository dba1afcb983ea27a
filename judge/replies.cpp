#include "judge/replies.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "rules/score.hpp"

namespace pointwright::judge {
namespace {

constexpr Place first_of_their_home = 19;
constexpr Place bar_point = 7;

bool makes_point(const Board& before, const Board& after, Side side, Place from, Place to) {
  for (Place point = from; point <= to; ++point) {
    if (before.count(side, point) < 2 && after.count(side, point) >= 2) return true;
  }
  return false;
}

int behind(const Board& board, Side side) {
  int checkers = 0;
  for (Place place = first_of_their_home; place <= bar_place; ++place) {
    checkers += board.count(side, place);
  }
  return checkers;
}

/// The best answer with one roll.
Reply answer(const Evaluator& evaluator, const chance::NextRoll& next,
             const chance::NextRoll::OfRoll& of_roll, const Valuation& valuation) {
  const Side first = opponent(next.side());
  Reply best{.roll = of_roll.roll, .worth = std::numeric_limits<double>::infinity()};
  const auto consider = [&](const Play& play, const Board& after) {
    const Chances chances = evaluator.evaluate(after, first).chances;
    const auto worth = static_cast<double>(valuation.equity(chances));
    if (worth >= best.worth) return;
    best.play = play;
    best.kind = kind_of(next, play, after);
    best.chances = chances;
    best.worth = worth;
  };
  if (of_roll.plays.empty()) consider(Play{}, next.board());
  for (const LegalPlay& legal : of_roll.plays) consider(legal.play, legal.after);
  return best;
}

}  // namespace

ReplyKind kind_of(const chance::NextRoll& next, const Play& play, const Board& after) {
  const Board& before = next.board();
  const Side side = next.side();
  if (has_won(after, side)) return ReplyKind::wins;
  if (std::ranges::any_of(play, &Move::hit)) return ReplyKind::hits;
  if (play.empty()) return ReplyKind::stuck;
  if (after.count(side, bar_place) > 0) return ReplyKind::waits;
  if (makes_point(before, after, side, first_of_their_home, 24)) return ReplyKind::anchors;
  if (makes_point(before, after, side, 1, bar_point)) return ReplyKind::closes;
  if (behind(after, side) < behind(before, side)) return ReplyKind::escapes;
  if (before.count(side, bar_place) > 0) return ReplyKind::enters;
  return ReplyKind::quiet;
}

Look look(const Evaluator& evaluator, const chance::NextRoll& next, const Valuation& valuation) {
  Look result;
  const Side first = opponent(next.side());
  if (has_won(next.board(), first)) {
    result.chances = lost_game(next.board()).reversed();
    result.worth = valuation.equity(result.chances);
    return result;
  }
  result.replies.reserve(next.rolls().size());
  for (const auto& of_roll : next.rolls()) {
    result.replies.push_back(answer(evaluator, next, of_roll, valuation));
    const Reply& reply = result.replies.back();
    result.chances.add(reply.chances, static_cast<float>(reply.roll.ways()) / 36);
    result.worth += reply.worth * reply.roll.ways() / 36;
  }
  return result;
}

std::vector<ReplyGroup> compare(const Look& first, const Look& second) {
  std::vector<ReplyGroup> groups;
  for (std::size_t i = 0; i < first.replies.size(); ++i) {
    const Reply& a = first.replies[i];
    const Reply& b = second.replies[i];
    const bool same = a.kind == b.kind;
    const ReplyKind kind_a = !same && is_calm(a.kind) ? ReplyKind::calm : a.kind;
    const ReplyKind kind_b = !same && is_calm(b.kind) ? ReplyKind::calm : b.kind;
    auto group = std::ranges::find_if(
        groups, [&](const ReplyGroup& g) { return g.first == kind_a && g.second == kind_b; });
    if (group == groups.end()) {
      groups.push_back({.first = kind_a, .second = kind_b});
      group = groups.end() - 1;
    }
    group->rolls.push_back(a.roll);
    group->ways += a.roll.ways();
    group->share += (a.worth - b.worth) * a.roll.ways() / 36;
  }
  for (ReplyGroup& group : groups) group.mean = group.share * 36 / group.ways;
  std::ranges::stable_sort(groups, [](const ReplyGroup& a, const ReplyGroup& b) {
    return std::abs(a.share) > std::abs(b.share);
  });
  return groups;
}

}  // namespace pointwright::judge

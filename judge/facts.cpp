#include "judge/facts.hpp"

#include <algorithm>

namespace pointwright::judge {
namespace {

constexpr Place first_of_their_home = 19;
constexpr int longest_direct_shot = 6;

bool holds(const Board& board, Side side, int point) {
  return board.count(side, static_cast<Place>(point)) >= 2;
}

int in_their_home(const Board& board, Side side) {
  int checkers = 0;
  for (int place = first_of_their_home; place <= bar_place; ++place) {
    checkers += board.count(side, static_cast<Place>(place));
  }
  return checkers;
}

int points_held(const Board& board, Side side, int from, int to) {
  int points = 0;
  for (int point = from; point <= to; ++point) points += holds(board, side, point) ? 1 : 0;
  return points;
}

bool bears_on_a_free_home_point(const Board& board, Side side, int from) {
  for (int point = std::max(1, from - longest_direct_shot); point <= last_home_point; ++point) {
    if (!holds(board, side, point) && !holds(board, opponent(side), bar_place - point)) return true;
  }
  return false;
}

const chance::EventKind& hit_event() {
  return *std::ranges::find_if(chance::event_kinds(),
                               [](const auto& kind) { return kind.name == "hit"; });
}

}  // namespace

bool is_within_a_die(const Board& board, Side side, Place blot) {
  for (int distance = 1; distance <= longest_direct_shot && distance <= blot; ++distance) {
    const int place = blot - distance;  // 0 is where the other side's bar lies
    if (board.count(opponent(side), static_cast<Place>(bar_place - place)) != 0) return true;
  }
  return false;
}

int builders(const Board& board, Side side) {
  constexpr int farthest = last_home_point + longest_direct_shot;
  int result = 0;
  for (int point = last_home_point + 1; point <= farthest; ++point) {
    const int count = board.count(side, static_cast<Place>(point));
    const int spare = count >= 2 ? count - 2 : count;
    if (spare > 0 && bears_on_a_free_home_point(board, side, point)) result += spare;
  }
  return result;
}

int longest_prime(const Board& board, Side side) {
  // Their checkers come from our low numbers; those on their bar stand before all our points.
  int their_rear = bar_place;
  for (int place = 0; place <= 24 && their_rear == bar_place; ++place) {
    if (board.count(opponent(side), static_cast<Place>(bar_place - place)) != 0) their_rear = place;
  }
  int longest = 0;
  int row = 0;
  for (int point = their_rear + 1; point <= 24; ++point) {
    row = holds(board, side, point) ? row + 1 : 0;
    longest = std::max(longest, row);
  }
  return longest;
}

PlayFacts facts_of(const Board& before, Side side, const LegalPlay& play) {
  PlayFacts facts;
  const Board& after = play.after;
  for (int point = 24; point >= 1; --point) {
    const bool held = holds(before, side, point);
    const bool holds_now = holds(after, side, point);
    if (holds_now && !held) facts.made.push_back(static_cast<Place>(point));
    if (held && !holds_now) facts.broken.push_back(static_cast<Place>(point));
    if (after.count(side, static_cast<Place>(point)) == 1) {
      facts.blots.push_back(static_cast<Place>(point));
    }
  }
  for (const Move& move : play.play) {
    if (move.hit) facts.hits.push_back(move.to);
  }
  facts.escaped = in_their_home(before, side) - in_their_home(after, side);
  facts.off = after.count(side, off_place) - before.count(side, off_place);
  facts.home_points = points_held(after, side, 1, last_home_point);
  facts.anchors = points_held(after, side, first_of_their_home, 24);
  facts.prime = longest_prime(after, side);
  facts.builders = builders(after, side);
  facts.pips = pip_count(after, side);
  facts.their_pips = pip_count(after, opponent(side));
  facts.on_their_bar = after.count(opponent(side), bar_place);
  return facts;
}

Shots shots(const chance::NextRoll& next) {
  Shots result;
  const Side target = opponent(next.side());
  const auto hits_on = [&](int point) {
    return chance::count(next,
                         {chance::Query::Mode::can, chance::Event::simple(hit_event(), point)});
  };
  const chance::Count any = hits_on(0);
  result.ways = any.ways;
  result.rolls = any.rolls;
  for (Place blot = 24; blot >= 1; --blot) {
    if (next.board().count(target, blot) != 1) continue;
    const int ways = hits_on(mirrored(blot)).ways;
    if (ways > 0) result.blots.push_back({blot, ways, is_within_a_die(next.board(), target, blot)});
  }
  std::ranges::stable_sort(result.blots, std::ranges::greater{}, &Shots::OnBlot::ways);
  return result;
}

}  // namespace pointwright::judge

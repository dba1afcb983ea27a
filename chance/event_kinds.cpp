#include <algorithm>
#include <array>

#include "chance/event.hpp"

namespace pointwright::chance {
namespace {

constexpr Place first_of_their_home = 19;
constexpr int longest_direct_shot = 6;

int hits(const Outcome& outcome) {
  return static_cast<int>(std::count_if(outcome.play.begin(), outcome.play.end(),
                                        [](const Move& move) { return move.hit; }));
}

bool hit(const Outcome& outcome, int point) {
  return std::any_of(outcome.play.begin(), outcome.play.end(), [&](const Move& move) {
    return move.hit && (point == 0 || move.to == point);
  });
}

bool hit_two(const Outcome& outcome, int) {
  return hits(outcome) >= 2;
}

int on_bar(const Board& board, Side side) {
  return board.count(side, bar_place);
}

bool enter(const Outcome& outcome, int) {
  return on_bar(outcome.after, outcome.side) < on_bar(outcome.before, outcome.side);
}

bool enter_all(const Outcome& outcome, int) {
  return on_bar(outcome.before, outcome.side) > 0 && on_bar(outcome.after, outcome.side) == 0;
}

bool enter_none(const Outcome& outcome, int) {
  return on_bar(outcome.before, outcome.side) > 0 && !enter(outcome, 0);
}

bool dance(const Outcome& outcome, int) {
  return outcome.choices == 0;
}

bool forced(const Outcome& outcome, int) {
  return outcome.choices == 1;
}

bool makes_point(const Outcome& outcome, Place point) {
  return outcome.before.count(outcome.side, point) < 2 &&
         outcome.after.count(outcome.side, point) >= 2;
}

bool point(const Outcome& outcome, int point) {
  return makes_point(outcome, static_cast<Place>(point));
}

bool cover(const Outcome& outcome, int point) {
  return outcome.before.count(outcome.side, static_cast<Place>(point)) == 1 &&
         outcome.after.count(outcome.side, static_cast<Place>(point)) >= 2;
}

bool anchor(const Outcome& outcome, int) {
  for (Place place = first_of_their_home; place <= 24; ++place) {
    if (makes_point(outcome, place)) return true;
  }
  return false;
}

int behind(const Board& board, Side side, int point) {
  int checkers = 0;
  for (int place = point; place <= bar_place; ++place)
    checkers += board.count(side, static_cast<Place>(place));
  return checkers;
}

bool escape(const Outcome& outcome, int point) {
  return behind(outcome.after, outcome.side, point) < behind(outcome.before, outcome.side, point);
}

int borne_off(const Outcome& outcome) {
  return outcome.after.count(outcome.side, off_place) -
         outcome.before.count(outcome.side, off_place);
}

bool off(const Outcome& outcome, int count) {
  return borne_off(outcome) >= std::max(count, 1);
}

bool off_all(const Outcome& outcome, int) {
  return has_won(outcome.after, outcome.side);
}

bool safe(const Outcome& outcome, int) {
  const Camp& camp = outcome.after.of(outcome.side);
  return std::none_of(camp.begin() + 1, camp.begin() + bar_place,
                      [](std::uint8_t count) { return count == 1; });
}

/// Whether an opposing checker (the bar included) stands 1 to 6 pips in front of a blot.
bool faces_direct_shot(const Board& board, Side side, int blot) {
  for (int distance = 1; distance <= longest_direct_shot; ++distance) {
    const int place = blot - distance;  // 0 is where the other side's bar lies
    if (place < 0) break;
    if (board.count(opponent(side), static_cast<Place>(bar_place - place)) != 0) return true;
  }
  return false;
}

bool no_direct_shot(const Outcome& outcome, int) {
  for (int place = 1; place <= 24; ++place) {
    if (outcome.after.count(outcome.side, static_cast<Place>(place)) == 1 &&
        faces_direct_shot(outcome.after, outcome.side, place))
      return false;
  }
  return true;
}

/// Blots of the other side, which alone can be hit.
int their_blots(const Board& board, Side side) {
  int blots = 0;
  for (Place place = 1; place <= 24; ++place)
    blots += board.count(opponent(side), place) == 1 ? 1 : 0;
  return blots;
}

bool hit_possible(const Board& board, Side side, int point) {
  if (point == 0) return their_blots(board, side) > 0;
  return board.count(opponent(side), mirrored(static_cast<Place>(point))) == 1;
}

bool hit_two_possible(const Board& board, Side side, int) {
  return their_blots(board, side) >= 2;
}

bool enter_possible(const Board& board, Side side, int) {
  return on_bar(board, side) > 0;
}

bool point_possible(const Board& board, Side side, int point) {
  return board.count(side, static_cast<Place>(point)) < 2;
}

bool cover_possible(const Board& board, Side side, int point) {
  return board.count(side, static_cast<Place>(point)) == 1;
}

using Argument = EventKind::Argument;

constexpr std::array<EventKind, 15> kinds{{
    {"hit", Argument::optional_point, "A blot is hit, or the blot on the point named.",
     "hit a blot|hit the blot on %", hit, hit_possible},
    {"hit-two", Argument::none, "At least two blots are hit.", "hit two blots", hit_two,
     hit_two_possible},
    {"enter", Argument::none, "At least one checker comes in from the bar.", "enter", enter,
     enter_possible},
    {"enter-all", Argument::none, "Every checker on the bar comes in.",
     "bring in every checker from the bar", enter_all, enter_possible},
    {"enter-none", Argument::none, "A checker waits on the bar and none comes in.",
     "stay on the bar", enter_none, enter_possible},
    {"dance", Argument::none, "No move is legal.", "dance", dance},
    {"forced", Argument::none, "Exactly one play is legal.", "have only one legal play", forced},
    {"point", Argument::point, "The point named is made: two or more checkers where fewer were.",
     "make point %", point, point_possible},
    {"cover", Argument::point, "The blot on the point named is covered.", "cover the blot on %",
     cover, cover_possible},
    {"anchor", Argument::none, "A point in the other side's home board is made.", "make an anchor",
     anchor},
    {"escape", Argument::point,
     "A checker that stood on the point named, or farther back, gets past it.", "escape past %",
     escape},
    {"off", Argument::count, "At least that many checkers are borne off; one if no number follows.",
     "bear off at least %", off},
    {"off-all", Argument::none, "The last checker is borne off.", "bear off the last checker",
     off_all},
    {"safe", Argument::none, "No blot is left.", "play without leaving a blot", safe},
    {"no-direct-shot", Argument::none,
     "No blot is left within six pips of an opposing checker in front of it.",
     "play without leaving a direct shot", no_direct_shot},
}};

}  // namespace

std::span<const EventKind> event_kinds() {
  return kinds;
}

}  // namespace pointwright::chance

#include "rules/ruling_refusal.hpp"

#include <algorithm>
#include <array>

#include "rules/book/bearing_off.hpp"
#include "rules/book/moving.hpp"
#include "rules/book/must_play.hpp"
#include "rules/obligation.hpp"
#include "rules/ruling_wording.hpp"

namespace pointwright::refusal {
namespace {

using reading::Dice;
using reading::Leg;
using reading::Obstacle;
using reading::Reading;
using reading::Stuck;
using wording::checkers;
using wording::listed;
using wording::number_word;
using wording::sentence;
using wording::Speaker;
using wording::step_text;

std::string written(const Leg& leg) {
  return step_text(leg.from, leg.to);
}

/// "on its 8-point" or "on the bar".
std::string on_place(Place place) {
  return place == bar_place ? "on the bar" : "on " + to_text(place);
}

std::string pips(int n) {
  return std::to_string(n) + (n == 1 ? " pip" : " pips");
}

/// The legs as written, equal neighbours counted: "13/7(2)", "8/2".
std::vector<std::string> counted(const std::vector<Leg>& legs) {
  std::vector<std::string> texts;
  for (std::size_t i = 0; i < legs.size();) {
    std::size_t same = i + 1;
    while (same < legs.size() && written(legs[same]) == written(legs[i])) ++same;
    texts.push_back(written(legs[i]) + (same - i > 1 ? "(" + std::to_string(same - i) + ")" : ""));
    i = same;
  }
  return texts;
}

/// "after 8/7, " when some of the moves have been made already.
std::string after_steps(const Stuck& stuck) {
  if (stuck.steps.empty()) return {};
  return "after " + to_text(Reading{stuck.steps, {}, 0}.play()) + ", ";
}

/// The first move that a die allows, from far to near.
std::optional<Move> first_step(Board board, Side side, int die) {
  for (Place from = bar_place; from > off_place; --from) {
    if (judge_step(board, side, from, die) != Step::fine) continue;
    const Place to = landing(from, die);
    return Move{from, to, make_move(board, side, from, to)};
  }
  return std::nullopt;
}

/// Whether `play` makes all the moves of `part`, perhaps with others.
bool contains(const Play& play, const Play& part) {
  std::vector<Move> left(play.begin(), play.end());
  return std::ranges::all_of(part, [&](const Move& move) {
    const auto found = std::ranges::find_if(
        left, [&](const Move& other) { return other.from == move.from && other.to == move.to; });
    if (found == left.end()) return false;
    left.erase(found);
    return true;
  });
}

std::optional<Reason> backward(const Case& c) {
  for (const Leg& leg : c.legs) {
    if (leg.to < leg.from) continue;
    if (leg.to == leg.from) {
      return Reason{&book::dice_numbers,
                    written(leg) + " moves no pips; the roll is " + to_text(c.roll) + "."};
    }
    const Speaker speaker(c.names, c.side);
    return Reason{
        &book::forward_only,
        sentence(written(leg) + " goes back " + pips(leg.to - leg.from) + "; " + speaker.mover() +
                 " moves from higher points to lower, towards " + speaker.point(1) + ".")};
  }
  return std::nullopt;
}

std::optional<Reason> without_checker(const Case& c) {
  const Speaker speaker(c.names, c.side);
  std::array<int, bar_place + 1> starts{};
  std::array<int, bar_place + 1> arrivals{};
  for (const Journey& journey : c.attempt.journeys) {
    ++starts[journey.stops.front()];
    ++arrivals[journey.stops.back()];
  }
  for (const Journey& journey : c.attempt.journeys) {
    const Place from = journey.stops.front();
    const int here = c.board.count(c.side, from);
    if (starts[from] <= here + arrivals[from]) continue;
    std::string proof;
    if (here == 0 && arrivals[from] == 0) {
      proof = speaker.mover() + " has no checker " + on_place(from);
      const int theirs = from == bar_place ? 0 : c.board.count(opponent(c.side), mirrored(from));
      if (theirs > 0) proof += "; " + speaker.holders(c.board, from);
    } else {
      const std::string here_text = here == 0 ? "none" : "only " + number_word(here);
      proof = checkers(starts[from]) + " would start " + on_place(from) + ", but " +
              speaker.mover() + " has " + here_text + " there";
      if (arrivals[from] > 0) proof += " and brings only " + number_word(arrivals[from]);
    }
    return Reason{&book::own_checker, sentence(proof + ".")};
  }
  return std::nullopt;
}

/// "one checker can move 4, 2 or, with both, 6".
std::string reach_text(Roll roll) {
  const int high = roll.high();
  if (roll.is_double()) {
    return "one checker can move " + std::to_string(high) + ", " + std::to_string(2 * high) + ", " +
           std::to_string(3 * high) + " or " + std::to_string(4 * high);
  }
  return "one checker can move " + std::to_string(high) + ", " + std::to_string(roll.low()) +
         " or, with both dice, " + std::to_string(roll.pips());
}

std::optional<Reason> not_in_dice(const Case& c) {
  for (const Leg& leg : c.legs) {
    if (reading::dice_cover({leg}, reading::dice_of(c.roll))) continue;
    const std::string distance = pips(leg.from - leg.to);
    return Reason{&book::dice_numbers,
                  written(leg) + (leg.to == off_place ? " needs " : " moves ") + distance +
                      "; the roll is " + to_text(c.roll) + ", so " + reach_text(c.roll) + "."};
  }
  return std::nullopt;
}

/// Legs that the dice cover one by one, but not together.
std::optional<Reason> more_than_rolled(const Case& c) {
  const Dice dice = reading::dice_of(c.roll);
  if (reading::dice_cover(c.legs, dice)) return std::nullopt;
  const std::string roll = to_text(c.roll);
  for (const int die : {c.roll.high(), c.roll.low()}) {
    std::vector<Leg> users;
    for (const Leg& leg : c.legs) {
      if (leg.from - leg.to == die) users.push_back(leg);
    }
    const int used = static_cast<int>(users.size());
    const int rolled = dice[static_cast<std::size_t>(die)];
    if (used <= rolled) continue;
    const std::string number = std::to_string(die);
    std::string proof(number_word(used));
    proof += " moves of " + number + " are written";
    if (c.roll.is_double()) {
      proof += "; a double gives four.";
    } else {
      proof += ", ";
      proof += listed(counted(users));
      proof += "; the roll ";
      proof += roll;
      proof += " has one " + number + ".";
    }
    return Reason{&book::die_once, sentence(std::move(proof))};
  }
  int total = 0;
  for (const Leg& leg : c.legs) total += leg.from - leg.to;
  if (total > c.roll.pips()) {
    return Reason{&book::die_once, "The moves written come to " + pips(total) + "; the roll " +
                                       roll + " gives " + std::to_string(c.roll.pips()) + "."};
  }
  return Reason{&book::die_once,
                "The roll " + roll + " has too few dice for " + listed(counted(c.legs)) + "."};
}

/// A leg whose end or stop is blocked.
Reason blocked(const Case& c, const Stuck& stuck) {
  const Speaker speaker(c.names, c.side);
  const Obstacle& first = stuck.obstacles.front();
  const Leg& leg = c.legs[first.leg];
  const bool end_is_held = leg.to != off_place && is_blocked(stuck.board, c.side, leg.to);
  if (first.to == leg.to || end_is_held) {
    return {&book::blocked_point,
            written(leg) + " is blocked: " + speaker.holders(stuck.board, leg.to) + "."};
  }
  std::vector<std::string> stops;
  std::string held;
  for (const Obstacle& obstacle : stuck.obstacles) {
    if (obstacle.leg != first.leg || obstacle.why != Step::blocked) continue;
    held += stops.empty() ? speaker.holders(stuck.board, obstacle.to)
                          : " and " + speaker.holding(stuck.board, obstacle.to);
    stops.push_back(to_text(obstacle.to));
  }
  return {&book::one_die_at_a_time,
          written(leg) + " has to stop on " + listed(stops, "or") + " between the dice, and " +
              (stops.size() == 1 ? "that is blocked: " : "both are blocked: ") + held + "."};
}

Reason not_home(const Case& c, const Stuck& stuck) {
  const Speaker speaker(c.names, c.side);
  int count = 0;
  std::vector<std::string> outside;
  for (Place place = 24; place > last_home_point; --place) {
    const int here = stuck.board.count(c.side, place);
    if (here > 0) outside.push_back(to_text(place));
    count += here;
  }
  const Obstacle& first = stuck.obstacles.front();
  return {&book::all_home,
          sentence(after_steps(stuck) + speaker.mover() + " has " + checkers(count) +
                   " outside its home board, on " + listed(outside) + ", so " +
                   step_text(first.from, first.to) + " would bear off too soon.")};
}

Reason higher_left(const Case& c, const Stuck& stuck) {
  const Speaker speaker(c.names, c.side);
  const Obstacle& first = stuck.obstacles.front();
  return {&book::highest_first,
          sentence(after_steps(stuck) + speaker.mover() + " has a checker on its " +
                   to_text(rearmost(stuck.board, c.side)) + "-point; it must move before the " +
                   to_text(first.from) + "-point is borne off with a " + std::to_string(first.die) +
                   ".")};
}

Reason bar_waits(const Case& c, const Stuck& stuck) {
  const Speaker speaker(c.names, c.side);
  const Obstacle& first = stuck.obstacles.front();
  const bool halfway = first.from != c.legs[first.leg].from;
  const std::string next = halfway ? "the checker on " + to_text(first.from) + " moves on"
                                   : step_text(first.from, first.to) + " is played";
  return {&book::bar_first,
          sentence(speaker.mover() + (stuck.steps.empty() ? " has " : " still has ") +
                   checkers(stuck.board.count(c.side, bar_place)) +
                   " on the bar, which must come in before " + next + ".")};
}

/// Why a double must be played further. With a double no move takes another away, so what was
/// played can always be continued to as many moves as any play makes.
Reason more_of_double(const Case& c, const Reading& read) {
  const Play made = read.play();
  const auto whole = std::ranges::find_if(
      c.legal, [&](const LegalPlay& legal) { return contains(legal.play, made); });
  const Play& better = whole != c.legal.end() ? whole->play : c.legal.front().play;
  const bool four = better.size() == 4;
  const std::string most = (four ? "all " : "") + number_word(better.size());
  return {&book::whole_double,
          to_text(made) + " plays only " + number_word(made.size()) +
              (four ? " of the four " : " of the ") + std::to_string(c.roll.high()) + "s; " + most +
              " can be played, as in " + to_text(better) + ", so " + most + " must be."};
}

}  // namespace

std::optional<Reason> by_writing(const Case& c) {
  if (auto reason = backward(c)) return reason;
  if (auto reason = without_checker(c)) return reason;
  if (auto reason = not_in_dice(c)) return reason;
  return more_than_rolled(c);
}

Reason by_board(const Case& c, const Stuck& stuck) {
  switch (stuck.obstacles.front().why) {
    case Step::blocked:
      return blocked(c, stuck);
    case Step::higher_first:
      return higher_left(c, stuck);
    case Step::not_all_home:
      return not_home(c, stuck);
    case Step::bar_first:
      return bar_waits(c, stuck);
    case Step::no_checker:
    case Step::fine:
      break;
  }
  // Not reached: a checker is missing only where the one that should bring it is held up, and then
  // that obstacle comes first. Said all the same, rather than nothing.
  return {&book::own_checker,
          written(c.legs[stuck.obstacles.front().leg]) + " has no checker to move."};
}

Reason by_duty(const Case& c, const Reading& read) {
  if (c.roll.is_double()) return more_of_double(c, read);
  const Play made = read.play();
  const std::string text = to_text(made);
  const std::string example = to_text(c.legal.front().play);
  const int used = read.steps.front().die;
  const int left = c.roll.high() + c.roll.low() - used;
  const std::string other = std::to_string(left);
  if (c.legal.front().play.size() == 1) {
    return {&book::larger_die, "Only one die can be played: " + text + " leaves no legal " + other +
                                   ". The " + other + " can be played instead, as in " + example +
                                   ", so the " + std::to_string(used) + " may not be."};
  }
  if (const auto more = first_step(read.after, c.side, left)) {
    Play both = made;
    both.push(*more);
    return {&book::both_dice, text + " plays only the " + std::to_string(used) + "; the " + other +
                                  " can be played too, as in " + to_text(both) +
                                  ", so it must be."};
  }
  return {&book::both_dice, text + " leaves no legal " + other + ", but " + example +
                                " uses both dice, so both must be played."};
}

Reason by_passing(const Case& c) {
  const Speaker speaker(c.names, c.side);
  return {&book::no_passing,
          sentence(speaker.mover() + " can play " + to_text(c.roll) + ", as in " +
                   to_text(c.legal.front().play) + ", and so may not pass the turn.")};
}

}  // namespace pointwright::refusal

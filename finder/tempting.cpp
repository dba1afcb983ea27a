#include "finder/tempting.hpp"

#include <algorithm>

#include "rules/book/bearing_off.hpp"
#include "rules/book/moving.hpp"
#include "rules/book/must_play.hpp"
#include "rules/ruling.hpp"
#include "rules/step.hpp"

namespace pointwright::finder {
namespace {

/// Collects tempting plays of one position.
class Collector {
 public:
  Collector(Facts& facts, std::size_t most, std::vector<Tempting>& found)
      : facts(facts),
        board(facts.board()),
        side(facts.side()),
        roll(facts.roll()),
        most_(most),
        found_(found) {
    found.clear();
  }

  [[nodiscard]] bool full() const { return found_.size() >= most_; }

  /// Takes moves made one after the other without asking the rules.
  void take(std::initializer_list<std::pair<Place, Place>> moves) {
    Tempting tempting{{}, board};
    for (const auto& [from, to] : moves) {
      const bool hit = make_move(tempting.after, side, from, to);
      tempting.play.push({from, to, hit});
    }
    found_.push_back(tempting);
  }

  [[nodiscard]] Step step(const Board& on, Place from, int die) const {
    return judge_step(on, side, from, die);
  }
  [[nodiscard]] Board moved(Place from, int die) const {
    Board result = board;
    make_move(result, side, from, landing(from, die));
    return result;
  }
  /// The numbers of the dice, each once.
  [[nodiscard]] std::vector<int> dice() const {
    if (roll.is_double()) return {roll.high()};
    return {roll.high(), roll.low()};
  }
  [[nodiscard]] int other(int die) const { return roll.high() + roll.low() - die; }
  /// Whether a legal play leads to that board: then the move is allowed after all, as when either
  /// die bears off the last checker.
  [[nodiscard]] bool is_legal(const Board& after) const {
    const auto& plays = facts.plays();
    return std::any_of(plays.begin(), plays.end(),
                       [&](const LegalPlay& play) { return play.after == after; });
  }
  [[nodiscard]] int theirs(Place point) const {
    return board.count(opponent(side), mirrored(point));
  }

  // NOLINTBEGIN(cppcoreguidelines-avoid-const-or-ref-data-members): lives for one call.
  Facts& facts;
  const Board& board;
  // NOLINTEND(cppcoreguidelines-avoid-const-or-ref-data-members)
  Side side;
  Roll roll;

 private:
  std::size_t most_;
  std::vector<Tempting>& found_;
};

/// Calls `with(from, die)` for each checker and each number on the dice, from far to near.
template <class With>
void each_move(Collector& c, const With& with) {
  for (const int die : c.dice()) {
    for (Place from = bar_place; from > off_place && !c.full(); --from) {
      if (c.board.count(c.side, from) > 0) with(from, die);
    }
  }
}

/// A move that a rule of the step refuses, the other die played first where it can be: then no
/// order of the two makes it legal. Where the other die would make it legal the move does not
/// count, and where the other die has no move it stands alone.
void refused_step(Collector& c, Step why) {
  each_move(c, [&](Place from, int die) {
    const Place to = landing(from, die);
    if (c.step(c.board, from, die) != why) return;
    if (c.roll.is_double()) return c.take({{from, to}});
    const int other = c.other(die);
    bool alone = true;
    for (Place first = bar_place; first > off_place && !c.full(); --first) {
      if (c.step(c.board, first, other) != Step::fine) continue;
      alone = false;
      const Place landed = landing(first, other);
      if (first == from || landed == from || landed == off_place) continue;
      if (c.step(c.moved(first, other), from, die) == why) c.take({{first, landed}, {from, to}});
    }
    if (alone) c.take({{from, to}});
  });
}

void own_checker(Facts& facts, std::size_t most, std::vector<Tempting>& found) {
  Collector c(facts, most, found);
  if (c.board.count(c.side, bar_place) > 0) return;
  for (const int die : c.dice()) {
    for (Place from = 24; from > die && !c.full(); --from) {
      const auto to = static_cast<Place>(from - die);
      if (c.theirs(from) == 0 || c.theirs(to) >= 2) continue;
      Tempting tempting{{}, c.board};
      tempting.play.push({from, to, false});
      found.push_back(tempting);
    }
  }
}

void forward_only(Facts& facts, std::size_t most, std::vector<Tempting>& found) {
  Collector c(facts, most, found);
  if (c.board.count(c.side, bar_place) > 0) return;
  each_move(c, [&](Place from, int die) {
    const auto to = static_cast<Place>(from + die);
    if (to > 24 || c.theirs(to) >= 2) return;
    if (c.theirs(to) == 1 || c.board.count(c.side, to) > 0) c.take({{from, to}});
  });
}

void dice_numbers(Facts& facts, std::size_t most, std::vector<Tempting>& found) {
  Collector c(facts, most, found);
  if (c.board.count(c.side, bar_place) > 0) return;
  const auto shown = [&](int pips) {
    if (c.roll.is_double()) return pips % c.roll.high() == 0 && pips <= c.roll.pips();
    return pips == c.roll.high() || pips == c.roll.low() || pips == c.roll.pips();
  };
  for (Place from = 24; from > 1; --from) {
    if (c.board.count(c.side, from) == 0) continue;
    for (auto to = static_cast<Place>(from - 1); to >= 1 && from - to <= 12 && !c.full(); --to) {
      if (!shown(from - to) && c.theirs(to) == 1) c.take({{from, to}});
    }
  }
}

void die_once(Facts& facts, std::size_t most, std::vector<Tempting>& found) {
  Collector c(facts, most, found);
  if (c.roll.is_double()) return;
  each_move(c, [&](Place from, int die) {
    const Place to = landing(from, die);
    if (to == off_place || c.step(c.board, from, die) != Step::fine) return;
    if (c.board.count(c.side, from) >= 2 && c.step(c.moved(from, die), from, die) == Step::fine)
      c.take({{from, to}, {from, to}});
  });
}

void bar_first(Facts& facts, std::size_t most, std::vector<Tempting>& found) {
  Collector c(facts, most, found);
  if (c.board.count(c.side, bar_place) == 0) return;
  const auto open = [&](Place from, int die) {
    const Place to = landing(from, die);
    return from != bar_place && to != off_place && c.theirs(to) < 2;
  };
  each_move(c, [&](Place from, int die) {
    if (!open(from, die)) return;
    const Place to = landing(from, die);
    if (c.roll.is_double()) return c.take({{from, to}});
    // Both dice elsewhere, where that can be done: nothing is left for the checker on the bar.
    const int other = c.other(die);
    bool alone = true;
    for (Place second = 24; second > off_place && !c.full(); --second) {
      const int there = c.board.count(c.side, second) - (second == from ? 1 : 0);
      if (there <= 0 || !open(second, other)) continue;
      alone = false;
      if (die > other) c.take({{from, to}, {second, landing(second, other)}});
    }
    if (alone) c.take({{from, to}});
  });
}

void blocked_point(Facts& facts, std::size_t most, std::vector<Tempting>& found) {
  Collector c(facts, most, found);
  each_move(c, [&](Place from, int die) {
    if (c.step(c.board, from, die) == Step::blocked) c.take({{from, landing(from, die)}});
  });
}

void one_die_at_a_time(Facts& facts, std::size_t most, std::vector<Tempting>& found) {
  Collector c(facts, most, found);
  const int reach = c.roll.high() + c.roll.low();
  for (Place from = bar_place; from > reach && !c.full(); --from) {
    if (c.board.count(c.side, from) == 0) continue;
    if (c.step(c.board, from, c.roll.high()) != Step::blocked ||
        c.step(c.board, from, c.roll.low()) != Step::blocked)
      continue;
    const auto to = static_cast<Place>(from - reach);
    if (c.theirs(to) < 2) c.take({{from, to}});
  }
}

void all_home_first(Facts& facts, std::size_t most, std::vector<Tempting>& found) {
  Collector c(facts, most, found);
  refused_step(c, Step::not_all_home);
}

void highest_first(Facts& facts, std::size_t most, std::vector<Tempting>& found) {
  Collector c(facts, most, found);
  refused_step(c, Step::higher_first);
}

void no_passing(Facts& facts, std::size_t most, std::vector<Tempting>& found) {
  Collector c(facts, most, found);
  if (!facts.plays().empty()) c.take({});
}

void both_dice(Facts& facts, std::size_t most, std::vector<Tempting>& found) {
  Collector c(facts, most, found);
  if (c.roll.is_double() || facts.duty().kind != Obligation::Kind::both_dice) return;
  each_move(c, [&](Place from, int die) {
    if (c.step(c.board, from, die) != Step::fine) return;
    const Board after = c.moved(from, die);
    if (has_won(after, c.side)) return;  // the game is over: nothing is left to be played
    if (!can_play(after, c.side, c.other(die)) && !c.is_legal(after))
      c.take({{from, landing(from, die)}});
  });
}

void larger_die(Facts& facts, std::size_t most, std::vector<Tempting>& found) {
  Collector c(facts, most, found);
  if (c.roll.is_double() || !facts.duty().either) return;
  for (Place from = bar_place; from > off_place && !c.full(); --from) {
    if (c.step(c.board, from, c.roll.low()) == Step::fine &&
        !c.is_legal(c.moved(from, c.roll.low())))
      c.take({{from, landing(from, c.roll.low())}});
  }
}

void whole_double(Facts& facts, std::size_t most, std::vector<Tempting>& found) {
  Collector c(facts, most, found);
  if (!c.roll.is_double() || facts.duty().moves < 2) return;
  for (const LegalPlay& legal : facts.plays()) {
    if (c.full()) return;
    Tempting tempting{legal.play, legal.after};
    take_back(tempting.after, c.side, legal.play[legal.play.size() - 1]);
    tempting.play.pop();
    found.push_back(tempting);
  }
}

void one_meaning(Facts& facts, std::size_t most, std::vector<Tempting>& found) {
  Collector c(facts, most, found);
  if (c.roll.is_double()) return;
  const int reach = c.roll.pips();
  for (Place from = bar_place; from > reach && !c.full(); --from) {
    const int here = c.board.count(c.side, from);
    const bool waits = from != bar_place && c.board.count(c.side, bar_place) > 0;
    if (here == 0 || waits || (from == bar_place && here > 1)) continue;
    const auto by_high = static_cast<Place>(from - c.roll.high());
    const auto by_low = static_cast<Place>(from - c.roll.low());
    const auto to = static_cast<Place>(from - reach);
    if (c.theirs(by_high) == 1 && c.theirs(by_low) == 1 && c.theirs(to) < 2) c.take({{from, to}});
  }
}

}  // namespace

const std::vector<Temptation>& temptations() {
  static const std::vector<Temptation> all{
      {&book::own_checker, "a checker of the other side moved by one die to an open point",
       own_checker},
      {&book::forward_only,
       "a checker moved back by one die, onto a blot or to a checker of its own side",
       forward_only},
      {&book::dice_numbers, "a blot hit by a distance that the dice do not give", dice_numbers},
      {&book::die_once, "one die played twice, by two checkers from the same point", die_once},
      {&book::bar_first,
       "a checker on the bar is left there while both dice (one, where only one has an open "
       "landing) are played elsewhere to open points",
       bar_first},
      {&book::blocked_point, "one die, onto a point that the other side holds", blocked_point},
      {&book::one_die_at_a_time,
       "both dice with one checker to an open point, both points on the way blocked",
       one_die_at_a_time},
      {&book::all_home,
       "a checker borne off while another is outside the home board, also after the other die",
       all_home_first},
      {&book::highest_first,
       "a checker borne off by a larger die while another stands higher, also after the other die",
       highest_first},
      {&book::no_passing, "the turn passed though there is a legal move", no_passing},
      {&book::both_dice,
       "a first move that leaves the second die no legal move, though another way plays both",
       both_dice},
      {&book::larger_die, "the smaller die, where either die could be played but not both",
       larger_die},
      {&book::whole_double, "one move of a double less than can be played", whole_double},
      {&book::one_meaning, "one checker over two ways, each of which hits another blot",
       one_meaning},
  };
  return all;
}

const Temptation* temptation_of(const Rule& rule) {
  for (const Temptation& temptation : temptations()) {
    if (temptation.rule == &rule) return &temptation;
  }
  return nullptr;
}

bool is_refused(const Position& position, const Play& play, const Rule& rule) {
  const auto attempt = read_play(to_text(play));
  if (!attempt.ok()) return false;
  const Ruling ruling = rule_on(position, *attempt);
  return !ruling.allowed && ruling.rule == &rule;
}

std::string written(const Tempting& tempting) {
  return to_text(tempting.play);
}

}  // namespace pointwright::finder

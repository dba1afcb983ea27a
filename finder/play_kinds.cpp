#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "chance/next_roll.hpp"
#include "finder/games.hpp"
#include "finder/predicate.hpp"
#include "finder/tempting.hpp"
#include "rules/book/must_play.hpp"
#include "rules/ruling.hpp"
#include "rules/ruling_wording.hpp"

/// Kinds of predicate about a roll and its plays, and about the chances of the roll to come.
namespace pointwright::finder {
namespace {

using Subject = PredicateKind::Subject;
using wording::sentence;

constexpr std::size_t enough_temptations = 64;

std::string mover(const Facts& facts) {
  return std::string(name(facts.side()));
}

// How much of the roll must be played.

/// How far from a roll of which either die can be played, but not both: the dice that cannot be
/// played now, and two when both can.
int one_die_distance(Facts& facts) {
  if (facts.roll().is_double()) return 5;
  const Obligation& duty = facts.duty();
  if (duty.kind == Obligation::Kind::none) return 3;
  if (duty.kind == Obligation::Kind::both_dice)
    return 2 + std::min(static_cast<int>(facts.plays().size()), 9) / 3;
  return duty.either ? 0 : 1;
}

bool refuses(Facts& facts, const Rule& rule) {
  std::vector<Tempting> found;
  temptation_of(rule)->list(facts, 1, found);
  return !found.empty();
}

Statement duty_state(Facts& facts, const Predicate&) {
  const Obligation& duty = facts.duty();
  std::string claim;
  switch (duty.kind) {
    case Obligation::Kind::none:
      claim = "no play";
      break;
    case Obligation::Kind::one_die:
      claim = "must play " + std::to_string(duty.die);
      break;
    case Obligation::Kind::both_dice:
      claim = "must use both";
      break;
    case Obligation::Kind::of_double:
      claim = "must play " + std::to_string(duty.moves) + " of 4";
      break;
  }
  return {claim, explain_obligation(facts.position())};
}

int use_both_distance(Facts& facts, const Predicate&) {
  if (facts.roll().is_double()) return 5;
  return 2 - std::min(facts.duty().moves, 2);
}
Truth not_of_doubles(const Facts& facts, const Predicate&) {
  return facts.knows(knows_roll) && facts.roll().is_double() ? Truth::no : Truth::unknown;
}

int larger_distance(Facts& facts, const Predicate&) {
  const int distance = one_die_distance(facts);
  if (distance > 0) return distance;
  // Either die may do the same, such as bearing off the last checker: then neither is refused.
  return refuses(facts, book::larger_die) ? 0 : 1;
}
int smaller_distance(Facts& facts, const Predicate&) {
  if (facts.roll().is_double()) return 5;
  const Obligation& duty = facts.duty();
  if (duty.kind != Obligation::Kind::one_die) return 2;
  return duty.die == facts.roll().low() ? 0 : 1;
}
int play_die_distance(Facts& facts, const Predicate& p) {
  const Roll roll = facts.roll();
  if (roll.is_double() || (roll.high() != p.range.least && roll.low() != p.range.least)) return 5;
  const Obligation& duty = facts.duty();
  if (duty.kind != Obligation::Kind::one_die) return 2;
  return duty.die == p.range.least ? 0 : 1;
}
Truth needs_that_die(const Facts& facts, const Predicate& p) {
  if (!facts.knows(knows_roll)) return Truth::unknown;
  const Roll roll = facts.roll();
  const bool shows = roll.high() == p.range.least || roll.low() == p.range.least;
  return shows && !roll.is_double() ? Truth::unknown : Truth::no;
}
int of_four_distance(Facts& facts, const Predicate& p) {
  if (!facts.roll().is_double()) return 5;
  return p.range.gap(facts.duty().moves);
}
Truth only_of_doubles(const Facts& facts, const Predicate&) {
  return facts.knows(knows_roll) && !facts.roll().is_double() ? Truth::no : Truth::unknown;
}

// The number of plays.

int play_count(Facts& facts) {
  return static_cast<int>(facts.plays().size());
}
int plays_distance(Facts& facts, const Predicate& p) {
  return p.range.gap(play_count(facts));
}
Statement plays_state(Facts& facts, const Predicate& p) {
  if (facts.plays().empty()) return duty_state(facts, p);
  const int count = play_count(facts);
  std::string text = "With " + to_text(facts.roll()) + " " + mover(facts) + " has ";
  text += count == 1 ? "one legal play" : std::to_string(count) + " legal plays";
  return {"plays " + std::to_string(count), sentence(text + ".")};
}

int no_play_distance(Facts& facts, const Predicate&) {
  return std::min(play_count(facts), 8);
}

int hits_of(const Play& play) {
  return static_cast<int>(
      std::count_if(play.begin(), play.end(), [](const Move& move) { return move.hit; }));
}
/// Whether the referee allows the play, and it hits as often as it is written with a *.
bool allows(Facts& facts, const Predicate& p) {
  const Ruling ruling = rule_on(facts.position(), p.attempt);
  if (!ruling.allowed) return false;
  const auto stars = std::count(p.play_text.begin(), p.play_text.end(), '*');
  return stars == 0 || stars == hits_of(ruling.play);
}
int forced_distance(Facts& facts, const Predicate& p) {
  const int apart = std::abs(play_count(facts) - 1);
  if (p.form == 1 || apart > 0) return std::min(apart, 8);
  return allows(facts, p) ? 0 : 2;
}
Statement forced_state(Facts& facts, const Predicate& p) {
  if (play_count(facts) != 1) return plays_state(facts, p);
  const std::string play = to_text(facts.plays().front().play);
  return {"forced " + play,
          "The only legal play is " + play + ". " + explain_obligation(facts.position())};
}

// Plays that are allowed or refused.

int legal_distance(Facts& facts, const Predicate& p) {
  return allows(facts, p) ? 0 : 2;
}
Statement ruling_state(Facts& facts, const Predicate& p) {
  const Ruling ruling = rule_on(facts.position(), p.attempt);
  if (ruling.allowed) return {"legal " + p.play_text, p.play_text + " is allowed. " + ruling.proof};
  const std::string id(ruling.rule->id);
  return {"illegal " + p.play_text + " because " + id,
          p.play_text + " is refused by " + id + ": " + ruling.proof};
}
int illegal_play_distance(Facts& facts, const Predicate& p) {
  const Ruling ruling = rule_on(facts.position(), p.attempt);
  if (ruling.allowed) return 3;
  return ruling.rule == p.rule ? 0 : 1;
}

/// The first tempting play that the rule refuses and that does what the predicate asks of it.
std::optional<Tempting> temptation(Facts& facts, const Predicate& p) {
  std::vector<Tempting> found;
  temptation_of(*p.rule)->list(facts, p.event ? enough_temptations : 1, found);
  if (!p.event) return found.empty() ? std::nullopt : std::optional(found.front());
  const auto choices = static_cast<int>(facts.plays().size());
  for (const Tempting& tempting : found) {
    if (answers(p.event->event, facts.board(), facts.side(), {tempting.play, tempting.after},
                choices))
      return tempting;
  }
  return std::nullopt;
}
int illegal_distance(Facts& facts, const Predicate& p) {
  if (temptation(facts, p)) return 0;
  if (p.rule == &book::larger_die) return 1 + one_die_distance(facts);
  if (p.rule == &book::both_dice) {
    const int duty = facts.duty().kind == Obligation::Kind::both_dice ? 0 : 1;
    return duty + 1 + std::min(play_count(facts), 8) / 3;
  }
  return p.event && refuses(facts, *p.rule) ? 1 : 2;
}
Statement illegal_state(Facts& facts, const Predicate& p) {
  const std::string id(p.rule->id);
  const auto tempting = temptation(facts, p);
  if (!tempting) return {"", "No tempting play is refused by " + id + "."};
  const std::string text = written(*tempting);
  const auto attempt = read_play(text);
  const Ruling ruling = rule_on(facts.position(), *attempt);
  return {"illegal " + text + " because " + id,
          text + " is refused by " + id + ": " + ruling.proof};
}
Truth illegal_early(const Facts& facts, const Predicate& p) {
  if (!facts.knows(knows_roll)) return Truth::unknown;
  const bool is_double = facts.roll().is_double();
  const bool of_doubles = p.rule == &book::whole_double;
  const bool of_others = p.rule == &book::both_dice || p.rule == &book::larger_die ||
                         p.rule == &book::one_meaning || p.rule->id == "die-once";
  return (of_doubles && !is_double) || (of_others && is_double) ? Truth::no : Truth::unknown;
}

// What plays do.

const LegalPlay* hardest_hit(Facts& facts) {
  const auto& plays = facts.plays();
  const auto best = std::max_element(plays.begin(), plays.end(), [](const auto& a, const auto& b) {
    return hits_of(a.play) < hits_of(b.play);
  });
  return best == plays.end() ? nullptr : &*best;
}
int hits_distance(Facts& facts, const Predicate& p) {
  const LegalPlay* best = hardest_hit(facts);
  return 2 * p.range.gap(best == nullptr ? 0 : hits_of(best->play));
}
/// A turn has four moves at most, and each hits one blot at most; without a double it has two.
Truth hits_early(const Facts& facts, const Predicate& p) {
  const bool two = facts.knows(knows_roll) && !facts.roll().is_double();
  return p.range.least > (two ? 2 : 4) ? Truth::no : Truth::unknown;
}
Statement hits_state(Facts& facts, const Predicate&) {
  const LegalPlay* best = hardest_hit(facts);
  const int hits = best == nullptr ? 0 : hits_of(best->play);
  if (hits == 0) return {"", "No legal play hits."};
  const std::string play = to_text(best->play);
  return {"hits " + std::to_string(hits) + " with " + play,
          play + " hits " + wording::number_word(hits) + (hits == 1 ? " blot" : " blots") +
              "; no legal play hits more."};
}

/// Legal plays that answer the event; the turn passed counts as one where there is none.
int answering(Facts& facts, const Predicate& p) {
  const auto& plays = facts.plays();
  if (plays.empty())
    return answers(p.event->event, facts.board(), facts.side(), {Play{}, facts.board()}, 0) ? 1 : 0;
  return static_cast<int>(std::count_if(plays.begin(), plays.end(), [&](const LegalPlay& play) {
    return answers(p.event->event, facts.board(), facts.side(), play,
                   static_cast<int>(plays.size()));
  }));
}
int event_distance(Facts& facts, const Predicate& p) {
  using Mode = chance::Query::Mode;
  const int yes = answering(facts, p);
  const int all = std::max(play_count(facts), 1);
  if (p.event->mode == Mode::can) return yes > 0 ? 0 : 2;
  return std::min(p.event->mode == Mode::cannot ? yes : all - yes, 8);
}
Statement event_state(Facts& facts, const Predicate& p) {
  const std::string what = chance::phrase(p.event->event);
  const int yes = answering(facts, p);
  const int all = std::max(play_count(facts), 1);
  const std::string_view modal = yes == 0 ? "cannot" : yes == all ? "must" : "can";
  std::string text = "With ";
  text.append(to_text(facts.roll())).append(" ").append(mover(facts)).append(" ");
  text.append(modal).append(" ").append(what);
  if (yes == 0) return {"", text + "."};
  for (const LegalPlay& play : facts.plays()) {
    if (!answers(p.event->event, facts.board(), facts.side(), play, all)) continue;
    const std::string moves = to_text(play.play);
    text.append(", as in ").append(moves).append(".");
    return {"legal " + moves, std::move(text)};
  }
  return {"", text + "."};
}

// What plays are worth.

int thousandths(float points) {
  return static_cast<int>(std::lround(1000 * points));
}
std::string points_text(int thousandths) {
  return to_text(Range{thousandths, thousandths}, 1000);
}

/// The best play, the next best, and how much lies between, in thousandths of a point.
struct Ranking {
  std::size_t best = 0;
  std::size_t next = 0;
  int lead = 0;
};
std::optional<Ranking> ranking(Facts& facts) {
  const auto& worths = facts.worths();
  if (worths.size() < 2) return std::nullopt;
  Ranking result{0, 1, 0};
  if (worths[1] > worths[0]) std::swap(result.best, result.next);
  for (std::size_t i = 2; i < worths.size(); ++i) {
    if (worths[i] > worths[result.best])
      result = {i, result.best, 0};
    else if (worths[i] > worths[result.next])
      result.next = i;
  }
  result.lead = thousandths(worths[result.best] - worths[result.next]);
  return result;
}

constexpr int step_of_worth = 25;  // thousandths that count as one step of distance
int worth_distance(const Range& range, int value) {
  const int gap = range.gap(value);
  return gap == 0 ? 0 : 1 + gap / step_of_worth;
}
constexpr std::string_view as_valued = " As the nets value them at once: an estimate.";

int best_by_distance(Facts& facts, const Predicate& p) {
  const auto ranked = ranking(facts);
  return ranked ? worth_distance(p.range, ranked->lead) : 40;
}
Statement best_by_state(Facts& facts, const Predicate&) {
  const auto ranked = ranking(facts);
  if (!ranked) return {"", "There are not two plays to compare."};
  const std::string best = to_text(facts.plays()[ranked->best].play);
  return {"legal " + best, "The best play, " + best + ", is worth " + points_text(ranked->lead) +
                               " more than the next, " + to_text(facts.plays()[ranked->next].play) +
                               "." + std::string(as_valued)};
}

/// What the play that comes to a beginner's mind costs, in thousandths of a point.
int natural_cost(Facts& facts, std::size_t best) {
  const std::size_t natural = natural_play(facts.plays(), facts.side());
  return thousandths(facts.worths()[best] - facts.worths()[natural]);
}
int natural_wrong_distance(Facts& facts, const Predicate& p) {
  const auto ranked = ranking(facts);
  return ranked ? worth_distance(p.range, natural_cost(facts, ranked->best)) : 40;
}
Statement natural_wrong_state(Facts& facts, const Predicate&) {
  const auto ranked = ranking(facts);
  if (!ranked) return {"", "There are not two plays to compare."};
  const std::string best = to_text(facts.plays()[ranked->best].play);
  const std::string natural =
      to_text(facts.plays()[natural_play(facts.plays(), facts.side())].play);
  if (natural == best) return {"legal " + best, "The natural play, " + best + ", is the best."};
  return {"legal " + best + "\nlegal " + natural,
          "The natural play, " + natural + ", is worth " +
              points_text(natural_cost(facts, ranked->best)) + " less than the best, " + best +
              "." + std::string(as_valued)};
}

// The dice.

bool shows(const Facts& facts, const Predicate& p) {
  const Roll roll = facts.roll();
  if (p.form == 0) return roll == *p.roll;
  if (p.form == 1) return roll.is_double();
  return p.range.least == roll.high() || p.range.least == roll.low();
}
int roll_distance(Facts& facts, const Predicate& p) {
  return shows(facts, p) ? 0 : 3;
}
Statement roll_state(Facts& facts, const Predicate&) {
  return {"", "The roll is " + to_text(facts.roll()) + "."};
}

// Chances of the roll to come.

int chance_distance(Facts& facts, const Predicate& p) {
  return p.range.gap(facts.ways(*p.event));
}
Statement chance_state(Facts& facts, const Predicate& p) {
  const chance::NextRoll next(facts.board(), facts.side());
  const int ways = chance::count(next, *p.event).ways;
  return {"chance " + chance::to_text(*p.event) + " " + std::to_string(ways) + "/36",
          sentence(chance::explain(next, *p.event))};
}

constexpr std::array<std::string_view, 1> illegal_forms{"illegal because RULE"};
constexpr std::array<std::string_view, 1> illegal_event_forms{"illegal EVENT because RULE"};
constexpr std::array<std::string_view, 1> illegal_play_forms{"illegal PLAY because RULE"};
constexpr std::array<std::string_view, 1> legal_forms{"legal PLAY"};
constexpr std::array<std::string_view, 2> forced_forms{"forced PLAY", "forced"};
constexpr std::array<std::string_view, 2> no_play_forms{"no play", "dance"};
constexpr std::array<std::string_view, 1> plays_forms{"plays RANGE"};
constexpr std::array<std::string_view, 1> use_both_forms{"must use both"};
constexpr std::array<std::string_view, 1> larger_forms{"must play larger"};
constexpr std::array<std::string_view, 1> smaller_forms{"must play smaller"};
constexpr std::array<std::string_view, 1> play_die_forms{"must play D"};
constexpr std::array<std::string_view, 1> of_four_forms{"must play RANGE of 4"};
constexpr std::array<std::string_view, 1> hits_forms{"hits RANGE"};
constexpr std::array<std::string_view, 3> event_forms{"can EVENT", "must EVENT", "cannot EVENT"};
constexpr std::array<std::string_view, 3> roll_forms{"roll D-D", "roll double", "roll D"};
constexpr std::array<std::string_view, 1> best_by_forms{"best by AMOUNT"};
constexpr std::array<std::string_view, 1> natural_wrong_forms{"natural play wrong by AMOUNT"};
constexpr std::array<std::string_view, 3> chance_forms{
    "chance EVENT FRACTION", "chance must EVENT FRACTION", "chance cannot EVENT FRACTION"};

constexpr std::array<PredicateKind, 18> kinds{{
    {"illegal", illegal_forms,
     "A tempting play is refused, and this rule decides; the table below says which plays tempt. "
     "The rule's name alone says the same.",
     "illegal because larger-die", Subject::turn, 20, illegal_distance, illegal_state,
     illegal_early},
    {"illegal-event", illegal_event_forms,
     "The same of a tempting play that would bring the event about.",
     "illegal hit because both-dice", Subject::turn, 30, illegal_distance, illegal_state,
     illegal_early},
    {"illegal-play", illegal_play_forms, "This play is refused, and this rule decides.",
     "illegal 8/7 6/3 because bar-first", Subject::turn, 90, illegal_play_distance, ruling_state,
     nullptr},
    {"legal", legal_forms, "This play is allowed; if it is written with a *, it hits.",
     "legal 24/18*/14", Subject::turn, 90, legal_distance, ruling_state, nullptr},
    {"forced", forced_forms, "There is only one legal play, or this one is the only one.", "forced",
     Subject::turn, 15, forced_distance, forced_state, nullptr},
    {"no play", no_play_forms, "No move is legal: the side dances.", "no play", Subject::turn, 14,
     no_play_distance, plays_state, nullptr},
    {"plays", plays_forms,
     "The roll has that many legal plays. Plays that lead to the same board count as one.",
     "plays 2 to 4", Subject::turn, 15, plays_distance, plays_state, nullptr},
    {"must use both", use_both_forms, "Both dice can be used, so both must be. Not for doubles.",
     "must use both", Subject::turn, 15, use_both_distance, duty_state, not_of_doubles},
    {"must play larger", larger_forms,
     "Either die can be played but not both, so the larger must be.", "must play larger",
     Subject::turn, 17, larger_distance, duty_state, not_of_doubles},
    {"must play smaller", smaller_forms,
     "Only the smaller die can be played at all, so it must be.", "must play smaller",
     Subject::turn, 16, smaller_distance, duty_state, not_of_doubles},
    {"must play", play_die_forms,
     "Only one of the two dice can be played, and it must be this one.", "must play 6",
     Subject::turn, 16, play_die_distance, duty_state, needs_that_die},
    {"must play of 4", of_four_forms,
     "Of the four moves of a double, so many can be made and so must be.", "must play 1 to 3 of 4",
     Subject::turn, 15, of_four_distance, duty_state, only_of_doubles},
    {"hits", hits_forms, "The legal play that hits most hits that many blots.", "hits at least 2",
     Subject::turn, 16, hits_distance, hits_state, hits_early},
    {"can", event_forms,
     "With this roll some legal play brings the event about, every one does, or none does.",
     "cannot enter", Subject::turn, 18, event_distance, event_state, nullptr},
    {"best by", best_by_forms,
     "The best play is worth that much more than the next best, in points won on average. An "
     "estimate: the nets value the plays at once.",
     "best by at least 0.100", Subject::turn, 2500, best_by_distance, best_by_state, nullptr},
    {"natural play wrong by", natural_wrong_forms,
     "The play that comes to a beginner's mind is worth that much less than the best. A beginner "
     "likes to hit, to make points and to leave few blots within reach, as the players of "
     "--natural do; an estimate as above.",
     "natural play wrong by at least 0.100", Subject::turn, 2600, natural_wrong_distance,
     natural_wrong_state, nullptr},
    {"roll", roll_forms, "The dice are these, or a double, or show this number.", "roll double",
     Subject::roll, 0, roll_distance, roll_state, nullptr},
    {"chance", chance_forms,
     "Of the 36 rolls to come, so many bring the event about; a roll that has been thrown does not "
     "count.",
     "chance hit at least 20/36", Subject::board, 400, chance_distance, chance_state, nullptr},
}};

}  // namespace

std::span<const PredicateKind> kinds_about_plays() {
  return kinds;
}

}  // namespace pointwright::finder

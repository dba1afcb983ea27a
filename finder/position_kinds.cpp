#include <algorithm>
#include <array>
#include <cmath>

#include "chance/rules_of_thumb.hpp"
#include "chance/two_sided.hpp"
#include "finder/predicate.hpp"
#include "rules/ruling_wording.hpp"

/// Kinds of predicate about the checkers alone, whatever is rolled.
namespace pointwright::finder {
namespace {

using Subject = PredicateKind::Subject;
using wording::sentence;

std::string who(const Facts& facts, const Predicate& p) {
  return std::string(name(side_of(facts, p)));
}

std::string number(int n, std::string_view singular) {
  return wording::number_word(n) + " " + std::string(singular) + (n == 1 ? "" : "s");
}

// Checkers in play.

int checkers(const Facts& facts, const Predicate& p) {
  return in_play(facts.board(), side_of(facts, p));
}
int checkers_distance(Facts& facts, const Predicate& p) {
  return p.range.gap(checkers(facts, p));
}
Statement checkers_state(Facts& facts, const Predicate& p) {
  return {"",
          sentence(who(facts, p) + " has " + number(checkers(facts, p), "checker") + " in play.")};
}

// Pips.

int pips_distance(Facts& facts, const Predicate& p) {
  return p.range.gap(pip_count(facts.board(), side_of(facts, p)));
}
std::string pips_claim(Facts& facts, Side side) {
  return "pips " + std::string(name(side)) + " " + std::to_string(pip_count(facts.board(), side));
}
Statement pips_state(Facts& facts, const Predicate& p) {
  const Side side = side_of(facts, p);
  return {pips_claim(facts, side),
          sentence(who(facts, p) + " has " + std::to_string(pip_count(facts.board(), side)) +
                   " pips to go.")};
}

int lead(const Facts& facts, const Predicate& p) {
  const Side side = side_of(facts, p);
  return pip_count(facts.board(), opponent(side)) - pip_count(facts.board(), side);
}
int lead_distance(Facts& facts, const Predicate& p) {
  return p.range.gap(lead(facts, p));
}
Statement lead_state(Facts& facts, const Predicate& p) {
  const Side side = side_of(facts, p);
  const int pips = lead(facts, p);
  const std::string other(name(opponent(side)));
  const int own = pip_count(facts.board(), side);
  const std::string counts = std::to_string(own) + (own == 1 ? " pip" : " pips") + " against " +
                             std::to_string(pip_count(facts.board(), opponent(side)));
  const std::string text =
      pips == 0  ? who(facts, p) + " and " + other + " are level, with " + counts
      : pips > 0 ? who(facts, p) + " leads by " + std::to_string(pips) + ", with " + counts
                 : who(facts, p) + " is behind by " + std::to_string(-pips) + ", with " + counts;
  return {pips_claim(facts, side) + "\n" + pips_claim(facts, opponent(side)), sentence(text + ".")};
}

// Contact.

bool wants_contact(const Predicate& p) {
  return p.form == 0;
}
int contact_distance(Facts& facts, const Predicate& p) {
  const Board& board = facts.board();
  const int overlap = rearmost(board, Side::light) + rearmost(board, Side::dark) - bar_place;
  if (has_contact(board) == wants_contact(p)) return 0;
  return 1 + std::abs(overlap) / 3;
}
Statement contact_state(Facts& facts, const Predicate&) {
  if (has_contact(facts.board())) return {"contact", "The sides can still meet."};
  return {"no contact", "The sides have passed each other."};
}
Truth contact_early(const Facts& facts, const Predicate& p) {
  // A checker on the bar has every opposing checker in front of it.
  for (const Side side : {Side::light, Side::dark}) {
    if (facts.knows(knows(side)) && facts.board().count(side, bar_place) > 0)
      return truth_of(wants_contact(p));
  }
  return Truth::unknown;
}

// Blots, points, primes and stacks.

template <class Counts>
int count_points(const Camp& camp, int farthest, const Counts& counts) {
  int result = 0;
  for (int point = 1; point <= farthest; ++point)
    result += counts(camp[static_cast<std::size_t>(point)]) ? 1 : 0;
  return result;
}
int blots(const Facts& facts, const Predicate& p) {
  return count_points(facts.board().of(side_of(facts, p)), 24, [](int n) { return n == 1; });
}
int blots_distance(Facts& facts, const Predicate& p) {
  return p.range.gap(blots(facts, p));
}
Statement blots_state(Facts& facts, const Predicate& p) {
  return {"", sentence(who(facts, p) + " has " + number(blots(facts, p), "blot") + ".")};
}

int points(const Facts& facts, const Predicate& p) {
  return count_points(facts.board().of(side_of(facts, p)), 24, [](int n) { return n >= 2; });
}
int points_distance(Facts& facts, const Predicate& p) {
  return p.range.gap(points(facts, p));
}
Statement points_state(Facts& facts, const Predicate& p) {
  return {"", sentence(who(facts, p) + " holds " + number(points(facts, p), "point") + ".")};
}

int home_points(const Facts& facts, const Predicate& p) {
  return count_points(facts.board().of(side_of(facts, p)), last_home_point,
                      [](int n) { return n >= 2; });
}
int home_points_distance(Facts& facts, const Predicate& p) {
  return p.range.gap(home_points(facts, p));
}
Statement home_points_state(Facts& facts, const Predicate& p) {
  return {"", sentence(who(facts, p) + " holds " + number(home_points(facts, p), "point") +
                       " in its home board.")};
}

int prime(const Facts& facts, const Predicate& p) {
  const Camp& camp = facts.board().of(side_of(facts, p));
  int longest = 0;
  int run = 0;
  for (std::size_t point = 1; point <= 24; ++point) {
    run = camp[point] >= 2 ? run + 1 : 0;
    longest = std::max(longest, run);
  }
  return longest;
}
int prime_distance(Facts& facts, const Predicate& p) {
  return 2 * p.range.gap(prime(facts, p));
}
Statement prime_state(Facts& facts, const Predicate& p) {
  return {"", sentence(who(facts, p) + "'s longest row of points is " +
                       wording::number_word(prime(facts, p)) + " long.")};
}

int stack(const Facts& facts, const Predicate& p) {
  const Camp& camp = facts.board().of(side_of(facts, p));
  return *std::max_element(camp.begin() + 1, camp.begin() + 25);
}
int stack_distance(Facts& facts, const Predicate& p) {
  return p.range.gap(stack(facts, p));
}
Statement stack_state(Facts& facts, const Predicate& p) {
  return {"", sentence(who(facts, p) + "'s tallest stack has " +
                       number(stack(facts, p), "checker") + ".")};
}

// Checkers on a place.

int on_place(const Facts& facts, const Predicate& p) {
  return facts.board().count(side_of(facts, p), p.place);
}
int on_distance(Facts& facts, const Predicate& p) {
  return p.range.gap(on_place(facts, p));
}
std::string place_words(Place place) {
  if (place == bar_place) return " on the bar.";
  if (place == off_place) return " borne off.";
  return " on its " + pointwright::to_text(place) + ".";
}
Statement on_state(Facts& facts, const Predicate& p) {
  return {"", sentence(who(facts, p) + " has " + number(on_place(facts, p), "checker") +
                       place_words(p.place))};
}

int anchors(const Facts& facts, const Predicate& p) {
  const Camp& camp = facts.board().of(side_of(facts, p));
  return static_cast<int>(
      std::count_if(camp.begin() + 19, camp.begin() + 25, [](int n) { return n >= 2; }));
}
int anchor_distance(Facts& facts, const Predicate& p) {
  return anchors(facts, p) > 0 ? 0 : 2;
}
Statement anchor_state(Facts& facts, const Predicate& p) {
  const bool has = anchors(facts, p) > 0;
  return {"", sentence(who(facts, p) + (has ? " has an anchor" : " has no anchor") + ".")};
}

// All checkers at home.

int outside(const Facts& facts, const Predicate& p) {
  const Camp& camp = facts.board().of(side_of(facts, p));
  int count = 0;
  for (std::size_t place = last_home_point + 1; place <= bar_place; ++place) count += camp[place];
  return count;
}
int bearing_off_distance(Facts& facts, const Predicate& p) {
  return outside(facts, p);
}
Statement bearing_off_state(Facts& facts, const Predicate& p) {
  const int count = outside(facts, p);
  if (count == 0) return {"", sentence(who(facts, p) + " has all its checkers at home.")};
  return {"", sentence(who(facts, p) + " has " + number(count, "checker") +
                       " outside its home board.")};
}

// The cube in the middle, for points, as the exact tables of small races know it.

constexpr std::array<std::string_view, 3> cube_forms{"cube hold", "cube double take",
                                                     "cube double drop"};
constexpr std::array cube_advices{CubeAdvice::hold, CubeAdvice::offer_take,
                                  CubeAdvice::offer_drop};  // in the order of the forms

/// Checkers too many for the tables, and steps of those outside their home boards.
int beyond_the_tables(const Board& board) {
  const int most = small_races().family().checkers();
  int beyond = 0;
  for (const Side side : {Side::light, Side::dark}) {
    beyond += std::max(0, in_play(board, side) - most);
    for (int place = last_home_point + 1; place <= bar_place; ++place)
      beyond += board.count(side, static_cast<Place>(place)) * (place - last_home_point);
  }
  return beyond;
}
std::optional<CubeValues> cube_values(const Facts& facts) {
  const BearoffFamily& family = small_races().family();
  const Camp& own = facts.board().of(facts.side());
  const Camp& other = facts.board().of(opponent(facts.side()));
  if (!family.contains(own) || !family.contains(other) || has_contact(facts.board()))
    return std::nullopt;
  return small_races().values(family.rank(own), family.rank(other));
}
int cube_distance(Facts& facts, const Predicate& p) {
  constexpr int outside = 100;
  const auto values = cube_values(facts);
  if (!values) return outside + beyond_the_tables(facts.board());
  if (exact_advice(*values, false) == cube_advices[p.form]) return 0;
  // The dearer the mistake, the farther from true.
  const double cost = cost_of(cube_advices[p.form], *values, false);
  return 1 + std::min(outside - 2, static_cast<int>(20 * cost));
}
Statement cube_state(Facts& facts, const Predicate&) {
  const auto values = cube_values(facts);
  if (!values) return {"", "No exact table knows what to do about the cube."};
  const CubeAdvice right = exact_advice(*values, false);
  const auto form = std::find(cube_advices.begin(), cube_advices.end(), right);
  constexpr std::array<std::string_view, 3> does{" holds the cube", " doubles, and the other takes",
                                                 " doubles, and the other drops"};
  const auto index = static_cast<std::size_t>(form - cube_advices.begin());
  const long wins = std::lround(1000 * values->win);
  return {"cube action " + std::string(cube_forms[index].substr(5)),
          sentence(std::string(name(facts.side())) + std::string(does[index]) +
                   ", exactly: it wins " + std::to_string(wins / 10) + "." +
                   std::to_string(wins % 10) + " per cent of the games.")};
}

constexpr std::array<std::string_view, 2> checkers_forms{"checkers SIDE RANGE", "checkers RANGE"};
constexpr std::array<std::string_view, 2> pips_forms{"pips SIDE RANGE", "pips RANGE"};
constexpr std::array<std::string_view, 2> lead_forms{"lead SIDE RANGE", "lead RANGE"};
constexpr std::array<std::string_view, 2> contact_forms{"contact", "no contact"};
constexpr std::array<std::string_view, 2> blots_forms{"blots SIDE RANGE", "blots RANGE"};
constexpr std::array<std::string_view, 2> points_forms{"points SIDE RANGE", "points RANGE"};
constexpr std::array<std::string_view, 2> home_points_forms{"home points SIDE RANGE",
                                                            "home points RANGE"};
constexpr std::array<std::string_view, 2> prime_forms{"prime SIDE RANGE", "prime RANGE"};
constexpr std::array<std::string_view, 2> stack_forms{"stack SIDE RANGE", "stack RANGE"};
constexpr std::array<std::string_view, 4> on_forms{"on SIDE PLACE RANGE", "on PLACE RANGE",
                                                   "on SIDE PLACE", "on PLACE"};
constexpr std::array<std::string_view, 4> bar_forms{"bar SIDE RANGE", "bar RANGE", "bar SIDE",
                                                    "bar"};
constexpr std::array<std::string_view, 4> off_forms{"off SIDE RANGE", "off RANGE", "off SIDE",
                                                    "off"};
constexpr std::array<std::string_view, 2> anchor_forms{"anchor SIDE", "anchor"};
constexpr std::array<std::string_view, 2> bearing_off_forms{"bearing off SIDE", "bearing off"};

constexpr std::array<PredicateKind, 15> kinds{{
    {"checkers", checkers_forms, "The side has that many checkers on points and bar.",
     "checkers light at most 3", Subject::camp, 1, checkers_distance, checkers_state},
    {"pips", pips_forms, "The side's pip count: for each checker its point, 25 on the bar.",
     "pips dark 40 to 60", Subject::camp, 2, pips_distance, pips_state},
    {"lead", lead_forms,
     "The side has that many pips fewer to go than the other. `lead at most 0`: it does not lead.",
     "lead light at least 10", Subject::board, 4, lead_distance, lead_state},
    {"contact", contact_forms, "Whether the sides can still hit or block each other.", "no contact",
     Subject::board, 2, contact_distance, contact_state, contact_early},
    {"blots", blots_forms, "The side has that many points with a single checker.",
     "blots dark at least 2", Subject::camp, 2, blots_distance, blots_state},
    {"points", points_forms, "The side holds that many points with two checkers or more.",
     "points dark 3", Subject::camp, 2, points_distance, points_state},
    {"home points", home_points_forms, "The same, counting points of its home board only.",
     "home points dark 5", Subject::camp, 2, home_points_distance, home_points_state},
    {"prime", prime_forms, "The side's longest row of points held side by side is that long.",
     "prime dark at least 4", Subject::camp, 2, prime_distance, prime_state},
    {"stack", stack_forms, "The side's tallest stack on a point has that many checkers.",
     "stack light at most 3", Subject::camp, 2, stack_distance, stack_state},
    {"on", on_forms,
     "The side has that many checkers on the place, which is a point as that side counts, bar or "
     "off; at least one if no number follows.",
     "on dark 5 at least 2", Subject::camp, 1, on_distance, on_state},
    {"bar", bar_forms,
     "The side has that many checkers on the bar; at least one if no number "
     "follows.",
     "bar light 2", Subject::camp, 1, on_distance, on_state},
    {"off", off_forms,
     "The side has borne off that many checkers; at least one if no number "
     "follows.",
     "off dark 0", Subject::camp, 1, on_distance, on_state},
    {"anchor", anchor_forms, "The side holds a point in the other side's home board.",
     "anchor light", Subject::camp, 1, anchor_distance, anchor_state},
    {"bearing off", bearing_off_forms, "All the side's checkers in play are in its home board.",
     "bearing off light", Subject::camp, 2, bearing_off_distance, bearing_off_state},
    {"cube", cube_forms,
     "What the side to play, which is to roll, should do about a cube in the middle, for points. "
     "Exact, and true only where a table knows: both sides home, with at most six checkers.",
     "cube double take", Subject::board, 40, cube_distance, cube_state},
}};

}  // namespace

std::span<const PredicateKind> kinds_about_positions() {
  return kinds;
}

}  // namespace pointwright::finder

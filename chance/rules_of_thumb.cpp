#include "chance/rules_of_thumb.hpp"

#include <algorithm>
#include <array>

#include "chance/race_counts.hpp"
#include "chance/rule_sums.hpp"

namespace pointwright {
namespace {

using race_counts::checkers_left;
using race_counts::pips;

CubeAdvice advice(bool offer, bool take) {
  if (!offer) return CubeAdvice::hold;
  return take ? CubeAdvice::offer_take : CubeAdvice::offer_drop;
}

/// By how much the other side is behind, in hundredths of the count of the side on roll. Both sides
/// of each comparison are multiplied by that count, so that whole numbers decide.
RuleReading by_per_cent(double own, double other, bool owned) {
  return {100 * (other - own), (owned ? 9 : 8) * own, 12 * own};
}

RuleReading eight_nine_twelve(const RaceView& race, bool owned) {
  return by_per_cent(pips(race.on_roll), pips(race.waiting), owned);
}

RuleReading thorp(const RaceView& race, bool owned) {
  double own = race_counts::thorp(race.on_roll);
  if (own > race_counts::thorp_long) own *= 1.1;
  return {race_counts::thorp(race.waiting) - own, owned ? -1.0 : -2.0, 2};
}

RuleReading keith(const RaceView& race, bool owned) {
  const int own =
      race_counts::with_seventh(pips(race.on_roll) + race_counts::keith_extra(race.on_roll));
  const int other = pips(race.waiting) + race_counts::keith_extra(race.waiting);
  return {static_cast<double>(other - own), owned ? -3.0 : -4.0, -2};
}

RuleReading ward(const RaceView& race, bool owned) {
  const int more = checkers_left(race.on_roll) - checkers_left(race.waiting);
  const double own =
      pips(race.on_roll) + race_counts::ward_extra(race.on_roll) + 2 * std::max(0, more);
  const double other =
      pips(race.waiting) + race_counts::ward_extra(race.waiting) + 2 * std::max(0, -more);
  return by_per_cent(own, other, owned);
}

RuleReading kleinman(const RaceView& race, bool owned) {
  const int own = pips(race.on_roll);
  const int other = pips(race.waiting);
  const double lead = other - own + 4;
  const double spread = std::max(1, own + other - 4);
  return {lead > 0 ? lead * lead / spread : 0, owned ? 0.61 : 0.44, 1.2};
}

RuleReading rule_of_62(const RaceView& race, bool owned) {
  const int own = pips(race.on_roll);
  const double take = race_counts::last_take(own);
  return {static_cast<double>(pips(race.waiting) - own), take - (owned ? 2 : 3), take};
}

RuleReading effective_pips(const RaceView& race, bool owned) {
  const double own =
      std::max(0.0, race_counts::effective(race.on_roll) - race_counts::least_wastage);
  const double behind = race_counts::effective(race.waiting) - race_counts::least_wastage - own;
  const double take = own <= race_counts::low_wastage_short ? (own - 5) / 7 : own / 10 + 1;
  return {behind, take - (owned ? 2 : 3), take};
}

constexpr std::array<RuleOfThumb, 7> all_rules{{
    {"8-9-12", "The 8-9-12 per cent rule",
     "Take the lead as a part of the count of the side on roll. Double from 8 per cent, redouble "
     "from 9; take up to 12.",
     "common practice; thresholds from memory", eight_nine_twelve, rule_sums::per_cent},
    {"thorp", "Thorp's count",
     "Pips, plus 2 for each checker left, plus 1 for each checker on the 1-point, less 1 for each "
     "home point held. If the side on roll counts more than 30, add a tenth to it. Double if it is "
     "not more than 2 above the other count, redouble if not more than 1; take if not more than 2 "
     "below.",
     "E. Thorp, \"Backgammon: the optimal strategy for the pure running game\", 1975 conference "
     "paper; details from memory",
     thorp, rule_sums::thorp},
    {"ward", "Ward's count",
     "Pips, plus 2 for each checker left more than the other side has; plus 2 for each checker "
     "beyond two on the 1-point, 1 beyond two on the 2-point, 1 beyond three on the 3-point; plus "
     "1 "
     "for each gap on the 4-, 5- and 6-points; plus half for each crossover still to make. Then as "
     "the 8-9-12 rule.",
     "J. Ward, 1980s; from memory, thresholds taken over from the 8-9-12 rule", ward,
     rule_sums::ward},
    {"keith", "Keith's count",
     "Pips, plus 2 for each checker beyond one on the 1-point, 1 beyond one on the 2-point, 1 "
     "beyond three on the 3-point, 1 for each gap on the 4-, 5- and 6-points. Add a seventh to the "
     "count of the side on roll, rounded down. Double if it is not more than 4 above the other, "
     "redouble if not more than 3; take if it is at least 2 above.",
     "T. Keith, \"Cube Handling in Noncontact Positions\", 2004; from memory", keith,
     rule_sums::keith},
    {"kleinman", "Kleinman's metric",
     "(D + 4)²/(S - 4), D the lead and S the sum of counts. Double from 0.44, redouble from 0.61; "
     "take up to 1.2.",
     "D. Kleinman, formula as in the project's references; thresholds from memory", kleinman,
     rule_sums::kleinman},
    {"effective", "The effective pip count",
     "Mean rolls times 49/6 for both sides, from the table of one side, less 7 each; then as the "
     "rule for low wastage, without rounding.",
     "W. Trice, Backgammon Boot Camp; from memory. The subtraction of 7, the wastage of the least "
     "wasteful positions, is ours",
     effective_pips, rule_sums::effective},
    {"low-wastage", "The rule for low-wastage positions",
     "With at most 62 pips the other side may take when it is behind by a seventh of the count "
     "less "
     "5, with more by a tenth plus 1, rounded down. Redouble from 2 pips short of that, double "
     "from "
     "3.",
     "W. Trice, Backgammon Boot Camp (\"rule 62\"); from memory", rule_of_62,
     rule_sums::low_wastage},
}};

}  // namespace

CubeAdvice RuleReading::advice() const {
  return pointwright::advice(lead >= offer_from, lead <= take_to);
}

std::string_view name(CubeAdvice advice) {
  switch (advice) {
    case CubeAdvice::hold:
      return "no double";
    case CubeAdvice::offer_take:
      return "double, take";
    case CubeAdvice::offer_drop:
      break;
  }
  return "double, drop";
}

std::span<const RuleOfThumb> rules_of_thumb() {
  return all_rules;
}

CubeAdvice exact_advice(const CubeValues& values, bool owned) {
  return advice(values.should_offer(owned ? CubeAccess::mine : CubeAccess::centred),
                values.should_take());
}

namespace {

/// What the two sides lose by an advice, each measured against the best that it can do.
struct Losses {
  double offer = 0;
  double answer = 0;
};

Losses losses(CubeAdvice advice, const CubeValues& values, bool owned) {
  const double hold = values.hold(owned ? CubeAccess::mine : CubeAccess::centred);
  const double best = std::max(hold, values.offered());
  if (advice == CubeAdvice::hold) return {best - hold, 0};
  const double answered = advice == CubeAdvice::offer_take ? values.offered_and_taken() : 1.0;
  return {best - values.offered(), answered - values.offered()};
}

}  // namespace

double cost_of(CubeAdvice advice, const CubeValues& values, bool owned) {
  const Losses lost = losses(advice, values, owned);
  return lost.offer + lost.answer;
}

template <class Real>
RuleScore score_rule(const RuleOfThumb& rule, const RacePopulation& population,
                     const TwoSidedTable<Real>& table, bool owned, std::size_t step) {
  constexpr double no_loss = 1e-5;  // equal choices, within the rounding of a table of floats
  const BearoffFamily& family = table.family();
  std::vector<std::uint32_t> sides;
  std::vector<Camp> camps(family.size());
  for (std::uint32_t rank = 1; rank < family.size(); ++rank) {
    camps[rank] = family.camp(rank);
    const int left = checkers_left(camps[rank]);
    const int count = pips(camps[rank]);
    if (left >= population.fewest && left <= population.most && count >= population.fewest_pips &&
        count <= population.most_pips) {
      sides.push_back(rank);
    }
  }
  RuleScore score;
  for (std::size_t pair = 0; pair < sides.size() * sides.size(); pair += step) {
    const std::uint32_t on_roll = sides[pair / sides.size()];
    const std::uint32_t waiting = sides[pair % sides.size()];
    const CubeValues values = table.values(on_roll, waiting);
    if (values.win < least_chance) continue;
    const CubeAdvice advice = rule.advise({camps[on_roll], camps[waiting]}, owned);
    const Losses lost = losses(advice, values, owned);
    ++score.races;
    if (lost.offer + lost.answer <= no_loss) ++score.right;
    if (lost.offer > no_loss) ++(advice == CubeAdvice::hold ? score.wrong_hold : score.wrong_offer);
    if (lost.answer > no_loss) {
      ++(advice == CubeAdvice::offer_take ? score.wrong_take : score.wrong_drop);
    }
    score.cost += lost.offer + lost.answer;
    score.largest_cost = std::max(score.largest_cost, lost.offer + lost.answer);
  }
  if (score.races > 0) score.cost /= static_cast<double>(score.races);
  return score;
}

template RuleScore score_rule(const RuleOfThumb&, const RacePopulation&,
                              const TwoSidedTable<float>&, bool, std::size_t);
template RuleScore score_rule(const RuleOfThumb&, const RacePopulation&,
                              const TwoSidedTable<double>&, bool, std::size_t);

}  // namespace pointwright

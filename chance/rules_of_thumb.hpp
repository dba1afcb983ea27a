#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "chance/bearoff.hpp"
#include "chance/two_sided.hpp"

namespace pointwright {

/// What the side on roll should do about the cube, and the other side if it is offered.
enum class CubeAdvice {
  hold,        ///< no double; a take if it were offered
  offer_take,  ///< double, take
  offer_drop,  ///< double, drop
};
std::string_view name(CubeAdvice advice);

/// What a rule of thumb sees of a race: the checkers of both sides.
struct RaceView {
  Camp on_roll;
  Camp waiting;
};

/// What a rule finds: by how much the side on roll leads, in the rule's own measure, and the leads
/// that decide.
struct RuleReading {
  double lead = 0;
  double offer_from = 0;  ///< double (or redouble) from here on
  double take_to = 0;     ///< the other side takes up to here

  [[nodiscard]] CubeAdvice advice() const;
};

/// A race that is talked about: what the two sides are called, and where the cube is.
struct RaceTalk {
  RaceView race;
  std::string on_roll_name;
  std::string waiting_name;
  bool owned = false;  ///< the side on roll holds the cube
};

/// A rule that teachers use to decide about the cube in a race.
struct RuleOfThumb {
  std::string_view id;
  std::string_view name;
  std::string_view statement;  ///< how it is done, for people
  std::string_view source;
  /// The reading with the cube in the middle, or (owned) with the cube on the side on roll.
  RuleReading (*read)(const RaceView& race, bool owned);
  /// The same written out as a sum.
  std::string (*sum)(const RaceTalk& talk);

  [[nodiscard]] CubeAdvice advise(const RaceView& race, bool owned) const {
    return read(race, owned).advice();
  }
};

std::span<const RuleOfThumb> rules_of_thumb();

/// A population of races: every pair of sides, each with `fewest` to `most` checkers left at home
/// and `fewest_pips` to `most_pips` to go.
struct RacePopulation {
  std::string_view name;
  int fewest = 1;
  int most = 6;
  int fewest_pips = 1;
  int most_pips = 36;
};

/// How a rule does on a population, cube in the middle or owned. Only races are counted in which
/// the cube is a question: those that are no plain hold, that is, in which the winning chance of
/// the side on roll is at least `least_chance`.
struct RuleScore {
  std::size_t races = 0;
  std::size_t right = 0;        ///< the exact advice
  std::size_t wrong_hold = 0;   ///< holds a cube that should be offered
  std::size_t wrong_offer = 0;  ///< offers one that should be held
  std::size_t wrong_take = 0;   ///< takes one that should be dropped
  std::size_t wrong_drop = 0;   ///< drops one that should be taken
  double cost = 0;              ///< mean loss of equity a race, both sides' mistakes together
  double largest_cost = 0;
};

inline constexpr double least_chance = 0.6;

/// The exact advice, and what another advice costs.
CubeAdvice exact_advice(const CubeValues& values, bool owned);
double cost_of(CubeAdvice advice, const CubeValues& values, bool owned);

/// Judges a rule by exact values, on each `step`-th race of a population (1: all of them).
template <class Real>
RuleScore score_rule(const RuleOfThumb& rule, const RacePopulation& population,
                     const TwoSidedTable<Real>& table, bool owned, std::size_t step = 1);

}  // namespace pointwright

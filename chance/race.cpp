#include "chance/race.hpp"

namespace pointwright {
namespace {

/// Calls `use(table, rank)` with the best one-sided table that covers the camp.
template <class Use>
bool with_table(const Camp& camp, const Use& use) {
  static const BearoffFamily home(last_home_point, checkers_per_side);
  static const BearoffFamily outfield(outfield_points, checkers_per_side);
  static const BearoffFamily runners(24, runners_checkers);
  if (home.contains(camp)) {
    use(home_table(), home.rank(camp));
  } else if (runners.contains(camp)) {
    use(runners_table(), runners.rank(camp));
  } else if (outfield.contains(camp)) {
    use(outfield_table(), outfield.rank(camp));
  } else {
    return false;
  }
  return true;
}

template <class Real>
bool covers(const TwoSidedTable<Real>& table, const Camp& one, const Camp& other) {
  return table.family().contains(one) && table.family().contains(other);
}

constexpr Certainty exact_table{
    Certainty::Kind::exact, 1e-12,
    "exact: every pair of positions that can follow was solved, with best play by both sides"};
constexpr Certainty large_table{
    Certainty::Kind::exact, 2e-6,
    "exact to six figures: every pair of positions that can follow was solved, with best play"};
constexpr Certainty convolved{
    Certainty::Kind::convolution, convolution_error,
    "each side's exact chances of needing so many rolls were combined, each playing for its own "
    "mean; no race of up to six checkers a side is off by more than the error stated"};

}  // namespace

std::string_view explain(NoRace why) {
  switch (why) {
    case NoRace::contact:
      return "this is no race: the sides can still hit or block each other";
    case NoRace::too_far:
      return "a side has too many checkers too far from home for the tables: they hold fifteen on "
             "the points 1 to 10, or six anywhere";
    case NoRace::finished:
      break;
  }
  return "the game is over: a side has borne off all its checkers";
}

std::optional<RaceSide> race_side(const Camp& camp) {
  RaceSide side;
  for (std::size_t place = 1; place < camp.size(); ++place) {
    side.pips += static_cast<int>(place) * camp[place];
  }
  const bool found = with_table(camp, [&](const auto& table, std::uint32_t rank) {
    side.mean_rolls = table.mean(rank);
    side.variance = table.variance(rank);
  });
  if (!found) return std::nullopt;
  side.effective_pips = side.mean_rolls * mean_roll_pips;
  side.wastage = side.effective_pips - side.pips;
  return side;
}

Result<RaceAnswer, NoRace> race_answer(const Board& board, Side on_roll, const RaceTables& tables) {
  const Camp& own = board.of(on_roll);
  const Camp& other = board.of(opponent(on_roll));
  if (has_won(board, Side::light) || has_won(board, Side::dark)) return NoRace::finished;
  if (has_contact(board)) return NoRace::contact;
  const auto own_side = race_side(own);
  const auto other_side = race_side(other);
  if (!own_side || !other_side) return NoRace::too_far;
  RaceAnswer answer{*own_side, *other_side, 0, {}, {}};
  if (const auto& small = small_races(); covers(small, own, other)) {
    answer.cube = small.values(small.family().rank(own), small.family().rank(other));
    answer.win = answer.cube->win;
    answer.win_known = exact_table;
  } else if (tables.large != nullptr && covers(*tables.large, own, other)) {
    const BearoffFamily& family = tables.large->family();
    answer.cube = tables.large->values(family.rank(own), family.rank(other));
    answer.win = answer.cube->win;
    answer.win_known = large_table;
  } else {
    with_table(own, [&](const auto& own_table, std::uint32_t own_rank) {
      with_table(other, [&](const auto& other_table, std::uint32_t other_rank) {
        answer.win = first_is_sooner(own_table.spread(own_rank), other_table.spread(other_rank));
      });
    });
    answer.win_known = convolved;
  }
  return answer;
}

const OneSidedTable<float>& runners_table() {
  static const OneSidedTable<float> table(24, runners_checkers);
  return table;
}

}  // namespace pointwright

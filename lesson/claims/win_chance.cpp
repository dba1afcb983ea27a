#include <fmt/format.h>

#include <array>
#include <cmath>

#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"
#include "lesson/searched.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::array<std::string_view, 1> win_forms{"win chance SIDE PERCENT"};
constexpr std::array<std::string_view, 1> gammon_forms{"gammon chance SIDE PERCENT"};
constexpr std::array<std::string_view, 1> worth_forms{"worth SIDE VALUE"};

/// A number as searched, put beside what is stated for `blank`. `shown` writes a number as the
/// claim does; `unit` is what the second decimal of the stated number counts.
template <class Show>
Answer judged_number(const Ask& ask, std::string_view blank, const Searched& number,
                     double measured, std::string truth, double unit, std::string_view claim,
                     Show shown) {
  const double error = number.error(measured);
  const Stated& stated = ask.stated(blank);
  const std::string proof =
      number.exact ? "Exact, from a table."
                   : fmt::format(
                         "Searched two rolls ahead; one roll ahead it is {}. It may be off "
                         "by {}.",
                         shown(number.before), shown(error));
  switch (settle(number.value, error, stated.value - stated.tolerance,
                 stated.value + stated.tolerance)) {
    case Settled::yes:
      return Proved{std::move(truth), proof, how_known(number.exact)};
    case Settled::open:
      return Unsettled{fmt::format("this cannot be settled: {} {}", truth, proof),
                       fmt::format("state a tolerance above {}",
                                   shown(std::abs(number.value - stated.value) + error))};
    case Settled::no:
      break;
  }
  const double tolerance = std::ceil(error / unit + 0.6) * unit;
  return Refuted{std::move(truth), proof, blank,
                 fmt::format("{} {} {} +- {}", claim, name(ask.side("SIDE")), shown(number.value),
                             shown(tolerance))};
}

std::string as_percent(double chance) {
  return fmt::format("{:.1f}%", 100 * chance);
}

std::string as_points(double value) {
  return fmt::format("{:.2f}", value + 0.0);
}

Answer check_win(const Ask& ask) {
  const auto valuation = valuation_for(ask);
  if (const auto* none = std::get_if<Unanswerable>(&valuation)) return *none;
  Searched win = searched_position(ask, std::get<judge::Valuation>(valuation)).win;
  const Side side = ask.side("SIDE");
  if (side != ask.side()) win = {1 - win.value, 1 - win.before, win.exact};
  return judged_number(ask, "PERCENT", win, chance_error,
                       fmt::format("{} wins {} of the games, with {} to roll.", Name(ask, side),
                                   as_percent(win.value), ask.names()[ask.side()]),
                       0.001, "win chance", as_percent);
}

Answer check_gammon(const Ask& ask) {
  const auto valuation = valuation_for(ask);
  if (const auto* none = std::get_if<Unanswerable>(&valuation)) return *none;
  const SearchedPosition found = searched_position(ask, std::get<judge::Valuation>(valuation));
  const Side side = ask.side("SIDE");
  const Searched& gammon = side == ask.side() ? found.gammon : found.lost_gammon;
  return judged_number(
      ask, "PERCENT", gammon, chance_error,
      fmt::format("{} wins a gammon in {} of the games, with {} to roll.", Name(ask, side),
                  as_percent(gammon.value), ask.names()[ask.side()]),
      0.001, "gammon chance", as_percent);
}

Answer check_worth(const Ask& ask) {
  const auto valuation = valuation_for(ask);
  if (const auto* none = std::get_if<Unanswerable>(&valuation)) return *none;
  Searched worth = searched_position(ask, std::get<judge::Valuation>(valuation)).equity;
  const Side side = ask.side("SIDE");
  if (side != ask.side()) worth = {-worth.value, -worth.before, worth.exact};
  return judged_number(
      ask, "VALUE", worth, equity_error,
      fmt::format("The position is worth {} points to {}, with {} to roll and without a cube.",
                  as_points(worth.value), ask.names()[side], ask.names()[ask.side()]),
      0.01, "worth", as_points);
}

}  // namespace

const ClaimKind win_chance_claim{
    .name = "win-chance",
    .forms = win_forms,
    .says = "How often the side wins when both play well and nobody doubles.",
    .needs = ClaimKind::Needs::turn,
    .example_board = "start; light to roll",
    .example = "win chance light 52% +- 4",
    .counterexample = "win chance light 60% +- 3",
    .check = check_win,
};

const ClaimKind gammon_chance_claim{
    .name = "gammon-chance",
    .forms = gammon_forms,
    .says = "How often the side wins a gammon or a backgammon.",
    .needs = ClaimKind::Needs::turn,
    .example_board = "start; light to roll",
    .example = "gammon chance light 14% +- 4",
    .counterexample = "gammon chance light 25% +- 3",
    .check = check_gammon,
};

const ClaimKind worth_claim{
    .name = "worth",
    .forms = worth_forms,
    .says =
        "What the position is worth to the side in points a game, or at a match score in the "
        "same units, when nobody doubles.",
    .needs = ClaimKind::Needs::turn,
    .example_board = "start; light to roll",
    .example = "worth light 0.06 +- 0.1",
    .counterexample = "worth light 0.5 +- 0.1",
    .check = check_worth,
};

}  // namespace pointwright::lesson

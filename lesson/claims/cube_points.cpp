#include <fmt/format.h>

#include <array>

#include "chance/blackboard.hpp"
#include "chance/cube_sums.hpp"
#include "chance/money_cube.hpp"
#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"
#include "rules/house.hpp"

namespace pointwright::lesson {
namespace {

using chance::GammonRates;
using chance::Needs;
using chance::percent_text;

constexpr std::array<std::string_view, 4> take_forms{
    "take point SIDE PERCENT", "live take point SIDE PERCENT",
    "take point SIDE PERCENT with gammons RATES",
    "live take point SIDE PERCENT with gammons RATES"};
constexpr std::array<std::string_view, 2> double_forms{
    "double point SIDE PERCENT", "double point SIDE PERCENT with gammons RATES"};
constexpr std::array<std::string_view, 1> gammon_forms{"gammon value SIDE VALUE"};

Answer long_match() {
  return Unanswerable{"the match table ends at 25 points, and a side needs more",
                      "give a score nearer to the end of the match"};
}

Answer crawford_game() {
  return Unanswerable{"this is the Crawford game, in which nobody doubles",
                      "take `crawford` away if the Crawford game is over"};
}

/// The end of a claim, as the author would write it.
std::string with_gammons(const GammonRates& rates) {
  return rates.any() ? fmt::format(" with gammons {}", to_text(rates)) : std::string{};
}

std::string counting(const GammonRates& rates) {
  return rates.any() ? fmt::format(", gammons counted as {}", to_text(rates))
                     : std::string{", gammons aside"};
}

std::string pointed(std::string_view claim, Side side, double point, const GammonRates& rates) {
  return fmt::format("{} {} {} +- 0.1{}", claim, name(side), percent_text(point),
                     with_gammons(rates));
}

Answer check_take_point(const Ask& ask) {
  const Side side = ask.side("SIDE");
  const bool live = ask.form() % 2 == 1;
  const GammonRates rates = ask.form() >= 2 ? ask.rates("RATES") : GammonRates{};
  const std::string_view claim = live ? "live take point" : "take point";
  const std::string cube = live ? "if it can use the cube to the full" : "recubes aside";
  const auto& match = ask.position().match;
  if (!match) {
    const auto decision = chance::decide_for_money(rates.seen_by(side));
    const double point = live ? decision.live_take_point : decision.dead_take_point;
    return judged(ask, "PERCENT", point,
                  fmt::format("{} may take a double with {} of the games, for points, {}{}.",
                              Name(ask, side), percent_text(point), cube, counting(rates)),
                  capitalised(chance::take_point_sum(decision, ask.names(), side)),
                  pointed(claim, side, point, rates));
  }
  if (match->crawford) return crawford_game();
  const Needs needs = chance::needs(*match, side);
  if (!covered_by_table(needs)) return long_match();
  const auto decision = chance::decide_at_score(chance::standard_match_table(), needs,
                                                ask.position().cube.value, rates.seen_by(side));
  const double point = live ? decision.live_take_point : decision.dead_take_point;
  return judged(
      ask, "PERCENT", point,
      fmt::format("{} may take a double to {} with {} of the games, {}{}.", Name(ask, side),
                  2 * decision.cube, percent_text(point), cube, counting(rates)),
      fmt::format("{} {}", capitalised(chance::take_point_sum(decision, needs, ask.names(), side)),
                  match_model_note),
      pointed(claim, side, point, rates));
}

Answer check_double_point(const Ask& ask) {
  const Side side = ask.side("SIDE");
  const Side taker = opponent(side);
  const GammonRates rates = ask.form() >= 1 ? ask.rates("RATES") : GammonRates{};
  const auto sentence = [&](double point) {
    return fmt::format(
        "{} gains by a double that nobody will turn again from {} of the games on{}.",
        Name(ask, side), percent_text(point), counting(rates));
  };
  const auto& match = ask.position().match;
  if (!match) {
    const HouseRules house = in_force(ask.position().house, false);
    const bool jacoby = house.jacoby && !ask.position().cube.holder;
    const auto decision = chance::decide_for_money(rates.seen_by(taker), jacoby);
    const double point = decision.dead_double_point;
    return judged(ask, "PERCENT", point, sentence(point),
                  capitalised(chance::double_point_sum(decision, ask.names(), taker)),
                  pointed("double point", side, point, rates));
  }
  if (match->crawford) return crawford_game();
  const Needs needs = chance::needs(*match, taker);
  if (!covered_by_table(needs)) return long_match();
  const auto decision = chance::decide_at_score(chance::standard_match_table(), needs,
                                                ask.position().cube.value, rates.seen_by(taker));
  const double point = decision.double_point;
  return judged(
      ask, "PERCENT", point, sentence(point),
      fmt::format("{} {}", capitalised(chance::double_point_sum(decision, ask.names(), taker)),
                  match_model_note),
      pointed("double point", side, point, rates));
}

Answer check_gammon_value(const Ask& ask) {
  const Side side = ask.side("SIDE");
  const std::uint64_t cube = ask.position().cube.value;
  const auto& match = ask.position().match;
  double value = chance::money_gammon_value;
  std::string proof =
      "For points a single win is worth 1, a gammon 2 and a single loss -1: a gammon adds 1 to a "
      "swing of 2.";
  if (match) {
    const Needs needs = chance::needs(*match, side);
    if (!covered_by_table(needs)) return long_match();
    const auto ends = chance::game_ends(chance::standard_match_table(), needs, cube);
    value = chance::gammon_value(ends);
    proof = fmt::format("{} {}", chance::gammon_value_sum(ends, cube, ask.names(), side),
                        match_model_note);
  }
  return judged(ask, "VALUE", value,
                fmt::format("A gammon is worth {:.2f} to {}: that much of the swing between a "
                            "single win and a single loss.",
                            value, ask.names()[side]),
                proof, fmt::format("gammon value {} {:.2f} +- 0.01", name(side), value));
}

}  // namespace

const ClaimKind take_point_claim{
    .name = "take-point",
    .forms = take_forms,
    .says =
        "The chance of winning the game with which the side may just take a double at this "
        "score and cube, or for points where the board has no match: with a cube that it will "
        "never turn, or `live`. Gammons do not count unless their shares are given.",
    .example_board = "start; match to 7 score 5-3",
    .example = "take point dark 28.7% +- 0.1 with gammons 20-20",
    .counterexample = "take point dark 25% +- 0.1",
    .check = check_take_point,
};

const ClaimKind double_point_claim{
    .name = "double-point",
    .forms = double_forms,
    .says =
        "The chance of winning the game from which the side gains by a double that nobody will "
        "turn again, at this score and cube, or for points where the board has no match. Gammons "
        "do not count unless their shares are given; under the Jacoby rule a double for points "
        "brings them to life.",
    .example_board = "start; light to roll; house jacoby",
    .example = "double point light 37.5% +- 0.1 with gammons 50-10",
    .counterexample = "double point light 50% +- 0.1 with gammons 50-10",
    .check = check_double_point,
};

const ClaimKind gammon_value_claim{
    .name = "gammon-value",
    .forms = gammon_forms,
    .says =
        "What a gammon adds for the side, as a part of the swing between a single win and a "
        "single loss, at this score and with the cube as it stands; 0.5 for points.",
    .example_board = "start; match to 7 score 3-5",
    .example = "gammon value dark 0.75 +- 0.01",
    .counterexample = "gammon value dark 0.5",
    .check = check_gammon_value,
};

}  // namespace pointwright::lesson

#include "app/offer_meaning.hpp"

#include <fmt/format.h>

#include <array>
#include <vector>

#include "app/numbers.hpp"
#include "chance/cube_sums.hpp"
#include "judge/cube_model.hpp"
#include "rules/house.hpp"

namespace pointwright::app {
namespace {

using chance::GameValues;
using chance::GammonRates;
using chance::MoneyDecision;
using chance::ScoreDecision;

constexpr std::array<Side, 2> sides{Side::light, Side::dark};

ScoreDecision decision(const Position& position, const chance::MatchTable& table,
                       const GammonRates& rates, Side taker) {
  return chance::decide_at_score(table, chance::needs(*position.match, taker), position.cube.value,
                                 rates.seen_by(taker));
}

/// How alive a cube may be, from one that nobody will turn again to one that is always turned in
/// time.
struct Life {
  std::string_view name;
  double value;
};
constexpr std::array lives{Life{"dead", 0.0}, Life{"usual", judge::usual_cube_life},
                           Life{"live", 1.0}};

/// The chances of winning at which decisions change in a game for points, as the side that may
/// double counts, with one life of the cube.
struct Window {
  double take;  ///< the taker's own chance
  double double_from;
  double redouble_from;
  double cash_from;
  std::optional<double> too_good_from;
};

Window window(const GameValues& values, double life, bool jacoby) {
  const GameValues taker{values.loss, values.win};
  return {chance::take_point(taker, life), chance::doubling_point(values, life, jacoby),
          chance::redoubling_point(values, life), chance::cash_point(values, life),
          chance::too_good_point(values, life, jacoby)};
}

/// A game for points, as the verb is asked about it.
struct MoneyGame {
  bool jacoby;  ///< the rule is in force and the cube has not been turned
  std::vector<Side> may_double;
};

MoneyGame money_game(const Position& position) {
  MoneyGame game{in_force(position.house, false).jacoby && !position.cube.holder, {}};
  for (const Side side : sides) {
    if (!position.cube.holder || position.cube.holder == side) game.may_double.push_back(side);
  }
  return game;
}

std::string windows_text(const Position& position, const GameValues& values, bool jacoby,
                         Side side) {
  const bool again = position.cube.holder.has_value();
  std::string text = fmt::format("  {:<24}{:>12}{:>12}{:>12}{:>12}\n", "",
                                 fmt::format("{} takes", name(opponent(side))),
                                 again ? "redouble" : "double", "drops after", "too good");
  for (const Life& life : lives) {
    const Window points = window(values, life.value, jacoby);
    const std::string called = life.value == 0   ? "dead cube"
                               : life.value == 1 ? "live cube"
                                                 : fmt::format("life {:.2f}", life.value);
    text += fmt::format("  {:<24}{:>12}{:>12}{:>12}{:>12}\n", called, percent(points.take, 1),
                        percent(again ? points.redouble_from : points.double_from, 1),
                        percent(points.cash_from, 1),
                        points.too_good_from ? percent(*points.too_good_from, 1) : "never");
  }
  return text;
}

/// What a double by the side to roll comes to.
struct Sums {
  double dead_take_point;
  double live_take_point;
  double double_point;
  std::string take_sum;
  std::string double_sum;
};

Sums sums_of(const Position& position, const GammonRates& rates) {
  const Side taker = opponent(*position.turn);
  if (position.match) {
    const ScoreDecision sum = decision(position, chance::standard_match_table(), rates, taker);
    return {sum.dead_take_point, sum.live_take_point, sum.double_point,
            chance::take_point_sum(sum, chance::needs(*position.match, taker), {}, taker),
            chance::double_point_sum(sum, {}, taker)};
  }
  const MoneyDecision sum =
      chance::decide_for_money(rates.seen_by(taker), money_game(position).jacoby);
  return {sum.dead_take_point, sum.live_take_point, sum.dead_double_point,
          chance::take_point_sum(sum, {}, taker), chance::double_point_sum(sum, {}, taker)};
}

}  // namespace

Result<GammonRates, Failure> read_rates(const std::optional<std::string>& text) {
  if (!text) return GammonRates{};
  const auto rates = chance::read_gammon_rates(*text);
  if (rates) return *rates;
  return failure("no-such-gammons", fmt::format("`{}` gives no shares of gammons", harmless(*text)),
                 "write how many of 100 games won by light are gammons, a hyphen, and the same for "
                 "dark: --gammons 25-10");
}

std::string rates_sentence(const GammonRates& rates) {
  if (!rates.any()) {
    return "Gammons are not counted in take points and doubling points; --gammons counts them.";
  }
  return fmt::format("Counted: {} of the games that light wins are gammons, and {} of dark's.",
                     percent(rates.share[0], 1), percent(rates.share[1], 1));
}

Json rates_object(const GammonRates& rates) {
  if (!rates.any()) return nullptr;
  return {{"light", rounded(rates.share[0], 4)}, {"dark", rounded(rates.share[1], 4)}};
}

std::string offer_text(const Position& position, const chance::MatchTable& table,
                       const GammonRates& rates, Side side, const Io& io) {
  const Side taker = opponent(side);
  const std::string who{name(side)};
  const std::string other{name(taker)};
  const ScoreDecision sum = decision(position, table, rates, taker);
  std::string result =
      painted(Ink::strong, fmt::format("If {} doubles to {}", who, 2 * sum.cube), io.colour_out) +
      "\n";
  if (sum.take_and_win <= sum.drop) {
    // Nothing can be gained by taking: a side that needs one point and would have it anyway.
    return result + wrapped(fmt::format("{} loses nothing by dropping.", other), io.width, 2);
  }
  result += fmt::format("  {} takes from  {:>6}  with a dead cube (money, no gammons: 25.0%)\n",
                        other, percent(sum.dead_take_point, 1));
  if (!sum.cube_is_dead) {
    result += fmt::format("  {} takes from  {:>6}  with a live cube (money, no gammons: 20.0%)\n",
                          other, percent(sum.live_take_point, 1));
  }
  const bool changes = sum.doubled.win > sum.now.win || sum.now.lose > sum.doubled.lose ||
                       (rates.any() && (sum.doubled.lose_gammon < sum.now.lose_gammon ||
                                        sum.doubled.win_gammon > sum.now.win_gammon));
  if (changes) {
    result += fmt::format("  {} gains from  {:>6}  by a double that nobody will turn again\n", who,
                          percent(sum.double_point, 1));
  } else {
    result += wrapped(fmt::format("At this score a single game is worth the same to {} at {} and "
                                  "at {}: the double counts only where a gammon can follow.",
                                  who, sum.cube, 2 * sum.cube),
                      io.width, 2);
  }
  result += wrapped(chance::take_point_sum(sum, chance::needs(*position.match, taker), {}, taker),
                    io.width, 2);
  if (changes) result += wrapped(chance::double_point_sum(sum, {}, taker), io.width, 2);
  return result;
}

Json offer_object(const Position& position, const chance::MatchTable& table,
                  const GammonRates& rates, Side side) {
  const Side taker = opponent(side);
  const ScoreDecision sum = decision(position, table, rates, taker);
  return {{"by", name(side)},
          {"cube", 2 * sum.cube},
          {"taker", name(taker)},
          {"drop", rounded(sum.drop, 4)},
          {"take_and_win", rounded(sum.take_and_win, 4)},
          {"take_and_lose", rounded(sum.take_and_lose, 4)},
          {"take_point",
           {{"dead", rounded(sum.dead_take_point, 4)}, {"live", rounded(sum.live_take_point, 4)}}},
          {"cube_dead_for_taker", sum.cube_is_dead},
          {"double_point", rounded(sum.double_point, 4)},
          {"gammon_value", rounded(sum.gammon_value, 4)},
          {"sum", chance::take_point_sum(sum, chance::needs(*position.match, taker), {}, taker)},
          {"double_sum", chance::double_point_sum(sum, {}, taker)}};
}

std::string sums_text(const Position& position, const GammonRates& rates, const Io& io) {
  const Sums sums = sums_of(position, rates);
  return wrapped(sums.take_sum, io.width, 2) + wrapped(sums.double_sum, io.width, 2);
}

Json sums_object(const Position& position, const GammonRates& rates) {
  const Sums sums = sums_of(position, rates);
  return {
      {"taker", name(opponent(*position.turn))},
      {"take_point",
       {{"dead", rounded(sums.dead_take_point, 4)}, {"live", rounded(sums.live_take_point, 4)}}},
      {"double_point", rounded(sums.double_point, 4)},
      {"gammons_counted", rates_object(rates)},
      {"sum", sums.take_sum},
      {"double_sum", sums.double_sum},
      {"known", known_modelled}};
}

std::string money_text(const Position& position, const GammonRates& rates, const Io& io) {
  const MoneyGame game = money_game(position);
  const GameValues light = chance::game_values(rates.seen_by(Side::light));
  std::string result = painted(Ink::strong, "A game for points", io.colour_out) + "\n";
  result += wrapped(
      fmt::format(
          "A game that light wins is worth {:.2f} on average, one that dark wins {:.2f}, "
          "in units of the cube.{}",
          light.win, light.loss,
          game.jacoby ? " By the Jacoby rule gammons count only once the cube was turned." : ""),
      io.width);
  for (const Side side : game.may_double) {
    const Side taker = opponent(side);
    const MoneyDecision sum = chance::decide_for_money(rates.seen_by(taker), game.jacoby);
    result += "\n" +
              painted(Ink::strong,
                      fmt::format("If {} {}: chances to win the game", name(side),
                                  position.cube.holder ? "redoubles" : "doubles"),
                      io.colour_out) +
              "\n" +
              windows_text(position, chance::game_values(rates.seen_by(side)), game.jacoby, side) +
              wrapped(chance::take_point_sum(sum, {}, taker), io.width, 2) +
              wrapped(chance::double_point_sum(sum, {}, taker), io.width, 2);
  }
  return result + "\n" +
         wrapped(
             fmt::format(
                 "{} A dead cube is one that nobody will turn again, a live one is always turned "
                 "in time; the truth lies between, and {:.2f} is what players commonly reckon "
                 "with. The mixture is that of R. Janowski, \"Take-Points in Money Games\", 1993.",
                 rates_sentence(rates), judge::usual_cube_life),
             io.width);
}

Json money_object(const Position& position, const GammonRates& rates) {
  const MoneyGame game = money_game(position);
  Json cube{{"value", position.cube.value}, {"holder", nullptr}};
  if (position.cube.holder) cube["holder"] = name(*position.cube.holder);
  Json offers = Json::array();
  for (const Side side : game.may_double) {
    const Side taker = opponent(side);
    const MoneyDecision sum = chance::decide_for_money(rates.seen_by(taker), game.jacoby);
    Json offer{{"by", name(side)}, {"taker", name(taker)}};
    for (const Life& life : lives) {
      const Window points =
          window(chance::game_values(rates.seen_by(side)), life.value, game.jacoby);
      offer["take_point"][life.name] = rounded(points.take, 4);
      offer["double_point"][life.name] = rounded(points.double_from, 4);
      offer["redouble_point"][life.name] = rounded(points.redouble_from, 4);
      offer["cash_point"][life.name] = rounded(points.cash_from, 4);
      offer["too_good_point"][life.name] =
          points.too_good_from ? Json(rounded(*points.too_good_from, 4)) : Json(nullptr);
    }
    offer["sum"] = chance::take_point_sum(sum, {}, taker);
    offer["double_sum"] = chance::double_point_sum(sum, {}, taker);
    offers.push_back(std::move(offer));
  }
  const GameValues light = chance::game_values(rates.seen_by(Side::light));
  return {{"game", "money"},
          {"cube", std::move(cube)},
          {"jacoby", game.jacoby},
          {"gammons_counted", rates_object(rates)},
          {"values", {{"light", rounded(light.win, 4)}, {"dark", rounded(light.loss, 4)}}},
          {"offers", std::move(offers)},
          {"known", known_modelled}};
}

}  // namespace pointwright::app

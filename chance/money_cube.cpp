#include "chance/money_cube.hpp"

#include <algorithm>

namespace pointwright::chance {
namespace {

/// The straight line through (x0, y0) and (x1, y1).
double line(double x, double x0, double y0, double x1, double y1) {
  return x1 > x0 ? y0 + (x - x0) / (x1 - x0) * (y1 - y0) : y1;
}

/// Where the live cube makes me drop and cash: my equity there is -1 and +1.
double live_take_point(const GameValues& values) {
  return take_point(values, 1);
}
double live_cash_point(const GameValues& values) {
  return cash_point(values, 1);
}

double live_equity(double chance, const GameValues& values, CubePlace place) {
  const double take = live_take_point(values);
  const double cash = live_cash_point(values);
  const bool i_can_cash = place != CubePlace::theirs;
  const bool they_can_cash = place != CubePlace::mine;
  const double low_x = they_can_cash ? take : 0.0;
  const double low_y = they_can_cash ? -1.0 : -values.loss;
  const double high_x = i_can_cash ? cash : 1.0;
  const double high_y = i_can_cash ? 1.0 : values.win;
  // Outside the window the game is cashed, or played on for a gammon.
  if (chance < low_x) return line(chance, 0, -std::max(1.0, values.loss), low_x, low_y);
  if (chance > high_x) return line(chance, high_x, high_y, 1, std::max(1.0, values.win));
  return line(chance, low_x, low_y, high_x, high_y);
}

/// The first chance up to `cash_point` at which `doubled` is worth at least as much as `waiting`.
template <class Doubled, class Waiting>
double first_better(double from, double to, const Doubled& doubled, const Waiting& waiting) {
  // Both are made of straight lines and cross at most once below the cash point: bisect.
  if (doubled(from) >= waiting(from)) return from;
  double low = from;
  double high = to;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (doubled(middle) >= waiting(middle) ? high : low) = middle;
  }
  return high;
}

}  // namespace

GameValues game_values(const GammonShares& shares) {
  return {1 + shares.mine + 2 * shares.my_backgammons,
          1 + shares.theirs + 2 * shares.their_backgammons};
}

double take_point(const GameValues& values, double life) {
  return (values.loss - 0.5) / (values.win + values.loss + 0.5 * life);
}

double cash_point(const GameValues& values, double life) {
  return (values.loss + 0.5 + 0.5 * life) / (values.win + values.loss + 0.5 * life);
}

double cubeful_equity(double chance, const GameValues& values, CubePlace place, double life,
                      bool jacoby) {
  const bool singles_only = jacoby && place == CubePlace::centred;
  const double win = singles_only ? 1.0 : values.win;
  const double loss = singles_only ? 1.0 : values.loss;
  const double dead = chance * win - (1 - chance) * loss;
  double live = live_equity(chance, values, place);
  // Under the Jacoby rule nobody plays on for a gammon with the cube in the middle.
  if (singles_only) live = std::clamp(live, -1.0, 1.0);
  return life * live + (1 - life) * dead;
}

double doubling_point(const GameValues& values, double life, bool jacoby) {
  return first_better(
      0.0, cash_point(values, life),
      [&](double p) { return 2 * cubeful_equity(p, values, CubePlace::theirs, life); },
      [&](double p) { return cubeful_equity(p, values, CubePlace::centred, life, jacoby); });
}

double redoubling_point(const GameValues& values, double life) {
  return first_better(
      0.0, cash_point(values, life),
      [&](double p) { return 2 * cubeful_equity(p, values, CubePlace::theirs, life); },
      [&](double p) { return cubeful_equity(p, values, CubePlace::mine, life); });
}

std::optional<double> too_good_point(const GameValues& values, double life, bool jacoby) {
  const auto playing_on = [&](double p) {
    return cubeful_equity(p, values, CubePlace::centred, life, jacoby);
  };
  const double cash = cash_point(values, life);
  if (playing_on(1) <= 1) return std::nullopt;
  return first_better(cash, 1, playing_on, [](double) { return 1.0; });
}

MoneyDecision decide_for_money(const GammonShares& shares, bool jacoby) {
  MoneyDecision decision;
  decision.taker = game_values(shares);
  decision.jacoby = jacoby;
  decision.dead_take_point = take_point(decision.taker, 0);
  decision.live_take_point = take_point(decision.taker, 1);
  decision.dead_double_point = doubling_point({decision.taker.loss, decision.taker.win}, 0, jacoby);
  return decision;
}

}  // namespace pointwright::chance

#pragma once

// A second, independent computation of short races for the tests: exact fractions, the plays from
// the rules room, no shared code with the tables.

#include <algorithm>
#include <array>
#include <map>
#include <vector>

#include "rules/play.hpp"

namespace pointwright::testing {

__extension__ using Int128 = __int128;

/// numerator / 36^power, exactly. Races of up to four home checkers a side last at most 16 rolls,
/// and 2 x 36^16 is far under 2^127.
struct Fraction {
  Int128 numerator = 0;
  int power = 0;

  [[nodiscard]] Int128 scaled_to(int higher) const {
    Int128 result = numerator;
    for (int i = power; i < higher; ++i) result *= 36;
    return result;
  }
  [[nodiscard]] double value() const {
    auto result = static_cast<long double>(numerator);
    for (int i = 0; i < power; ++i) result /= 36;
    return static_cast<double>(result);
  }
  friend Fraction operator-(const Fraction& f) { return {-f.numerator, f.power}; }
  friend Fraction operator+(const Fraction& a, const Fraction& b) {
    const int common = std::max(a.power, b.power);
    return {a.scaled_to(common) + b.scaled_to(common), common};
  }
  friend Fraction operator*(int factor, const Fraction& f) {
    return {factor * f.numerator, f.power};
  }
  friend bool operator<(const Fraction& a, const Fraction& b) {
    const int common = std::max(a.power, b.power);
    return a.scaled_to(common) < b.scaled_to(common);
  }
  [[nodiscard]] Fraction over_36() const { return {numerator, power + 1}; }
};

/// A board with light's camp alone, dark having one checker that nothing can meet.
inline Board alone(const Camp& camp) {
  Board board;
  board.of(Side::light) = camp;
  board.of(Side::dark)[1] = 1;
  board.of(Side::dark)[off_place] = 14;
  return board;
}

/// The positions after each roll of a side alone, by the rules room.
using AfterRolls = std::array<std::vector<Camp>, 21>;
inline AfterRolls after_rolls(const Camp& camp) {
  AfterRolls result;
  for (std::size_t i = 0; i < 21; ++i) {
    for (const LegalPlay& play : legal_plays(alone(camp), Side::light, all_rolls()[i])) {
      result[i].push_back(play.after.of(Side::light));
    }
  }
  return result;
}

/// Every home-board position of 1 to `most` checkers.
inline std::vector<Camp> home_camps(int most) {
  std::vector<Camp> result;
  const auto place = [&](auto&& self, Camp camp, std::size_t point, int left) -> void {
    if (point == 0) {
      camp[off_place] = static_cast<std::uint8_t>(checkers_per_side - (most - left));
      if (left < most) result.push_back(camp);
      return;
    }
    for (int n = 0; n <= left; ++n) {
      camp[point] = static_cast<std::uint8_t>(n);
      self(self, camp, point - 1, left - n);
    }
  };
  place(place, Camp{}, 6, most);
  return result;
}

inline bool is_off(const Camp& camp) {
  return camp[off_place] == checkers_per_side;
}

/// Solves races by plain recursion with a memory.
class ExactRaces {
 public:
  struct Values {
    Fraction win, centred, mine, theirs;  ///< after the best choice about the cube
    Fraction hold_centred, hold_mine;     ///< when the cube is not offered this turn
  };

  /// Mean number of rolls when each roll is played for it.
  const Fraction& mean(const Camp& camp) {
    if (const auto found = means_.find(camp); found != means_.end()) return found->second;
    Fraction sum;
    for (std::size_t i = 0; !is_off(camp) && i < 21; ++i) {
      const std::vector<Camp>& plays = after(camp)[i];
      Fraction best = mean(plays[0]);
      for (const Camp& play : plays) best = std::min(best, mean(play));
      sum = sum + all_rolls()[i].ways() * best;
    }
    const Fraction one{is_off(camp) ? 0 : 1, 0};
    return means_[camp] = one + sum.over_36();
  }

  /// Win chance and equities of `on_roll` against `waiting`.
  const Values& values(const Camp& on_roll, const Camp& waiting) {
    const auto key = std::pair(on_roll, waiting);
    if (const auto found = values_.find(key); found != values_.end()) return found->second;
    const Fraction one{1, 0};
    Values result;
    if (is_off(waiting)) {
      result = {{}, -one, -one, -one, -one, -one};
      return values_[key] = result;
    }
    for (std::size_t i = 0; i < 21; ++i) {
      Values best{{}, -one, -one, -one, -one, -one};
      for (const Camp& play : after(on_roll)[i]) {
        const Values& reply = values(waiting, play);
        best.win = std::max(best.win, one + -reply.win);
        best.hold_centred = std::max(best.hold_centred, -reply.centred);
        best.hold_mine = std::max(best.hold_mine, -reply.theirs);
        best.theirs = std::max(best.theirs, -reply.mine);
      }
      const int ways = all_rolls()[i].ways();
      result.win = result.win + ways * best.win.over_36();
      result.hold_centred = result.hold_centred + ways * best.hold_centred.over_36();
      result.hold_mine = result.hold_mine + ways * best.hold_mine.over_36();
      result.theirs = result.theirs + ways * best.theirs.over_36();
    }
    const Fraction offered = std::min(one, 2 * result.theirs);
    result.centred = std::max(result.hold_centred, offered);
    result.mine = std::max(result.hold_mine, offered);
    return values_[key] = result;
  }

 private:
  const AfterRolls& after(const Camp& camp) {
    const auto found = after_.find(camp);
    return found != after_.end() ? found->second : after_[camp] = after_rolls(camp);
  }

  std::map<Camp, AfterRolls> after_;
  std::map<Camp, Fraction> means_;
  std::map<std::pair<Camp, Camp>, Values> values_;
};

}  // namespace pointwright::testing

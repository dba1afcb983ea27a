#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "rules/board.hpp"

namespace pointwright::chance {

/// How often games end in more than a single game, in shares of the games won by each side. A
/// backgammon is not counted among the gammons here.
struct GammonShares {
  double mine = 0;
  double my_backgammons = 0;
  double theirs = 0;
  double their_backgammons = 0;

  [[nodiscard]] bool any() const {
    return mine > 0 || my_backgammons > 0 || theirs > 0 || their_backgammons > 0;
  }
  [[nodiscard]] GammonShares reversed() const {
    return {theirs, their_backgammons, mine, my_backgammons};
  }
};

/// The share of the games won by each side that are gammons, as a teacher states it; backgammons
/// are taken for gammons.
struct GammonRates {
  std::array<double, 2> share{};  ///< of the games that light wins, and that dark wins; 0 to 1

  [[nodiscard]] bool any() const { return share[0] > 0 || share[1] > 0; }
  [[nodiscard]] GammonShares seen_by(Side side) const {
    return {.mine = share[index(side)], .theirs = share[index(opponent(side))]};
  }
};

/// Reads "25-10": 25 of 100 games won by light are gammons, and 10 of 100 won by dark. A number may
/// have one decimal, and a per cent sign behind it. Nothing if the text is none of this, or a
/// number is above 100.
std::optional<GammonRates> read_gammon_rates(std::string_view text);

/// "25-10", as read_gammon_rates reads it.
std::string to_text(const GammonRates& rates);

}  // namespace pointwright::chance

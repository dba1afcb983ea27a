#pragma once

#include <array>
#include <optional>

#include "rules/position.hpp"

namespace pointwright {

/// Anything that somebody may have put on a board, possible or not. Places are as each side counts.
struct Setup {
  std::array<std::array<int, 26>, 2> camps{};
  std::array<std::optional<int>, 2> stated_off;  ///< set where the author wrote it; must agree
  std::optional<Side> turn;
  std::optional<std::array<int, 2>> dice;
  std::uint64_t cube_value = 1;
  std::optional<Side> cube_holder;
  std::optional<MatchScore> match;
  HouseRules house;
};

/// What is wrong with a set-up, and the part that it concerns.
struct SetupFault {
  enum class Part { side, place, dice, cube, match };
  std::string_view id;
  Part part;
  Side side = Side::light;  ///< for side and place
  Place place = 0;          ///< for place
  std::string reason;
  std::string fix;
};

/// The position of a set-up, its missing checkers borne off, or every reason why there is none.
Result<Position, std::vector<SetupFault>> validate(const Setup& setup);

}  // namespace pointwright

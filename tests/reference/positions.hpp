#pragma once

#include <cstdint>
#include <random>
#include <string_view>

#include "rules/board.hpp"
#include "rules/roll.hpp"

/// Random boards to try generators on, the same for the same seed on every machine.
namespace pointwright::reference {

/// The engine's output is laid down by the C++ standard; distributions are not, so none is used.
using Random = std::mt19937_64;

/// A whole number from 0 to `below` - 1. Precondition: below >= 1.
int random_below(Random& random, int below);

Roll random_roll(Random& random);

/// Where a board comes from.
enum class Kind {
  game,        ///< met in a game of random plays
  scattered,   ///< checkers thrown anywhere, up to fifteen a side
  sparse,      ///< one to four checkers a side
  on_the_bar,  ///< several checkers on the bar, many closed points against them
  bear_off,    ///< the mover home or nearly, the other side sometimes in its way
};
inline constexpr int kind_count = 5;

std::string_view name(Kind kind);

/// A board on which neither side has won, with a side and a roll to try on it.
struct Trial {
  Board board;
  Side side = Side::light;
  Roll roll{1, 1};
};

/// Makes one trial after another.
class Trials {
 public:
  explicit Trials(std::uint64_t seed) : random_(seed) {}
  Trial next(Kind kind);

 private:
  Random random_;
  Trial game_{};  // where the game of random plays stands
  bool in_game_ = false;

  Trial next_of_game();
};

}  // namespace pointwright::reference

#pragma once

#include <string>
#include <vector>

#include "rules/board.hpp"

/// How a real board is brought from one set-up to another.
namespace pointwright::film {

/// Something that the hands do with checkers of one side and one place, as that side counts.
struct Carry {
  enum class Kind {
    over,   ///< from one place to another
    aside,  ///< from a place to the table, because its new place is not free yet
    back,   ///< from the table to its place
  };
  Kind kind = Kind::over;
  Side side = Side::light;
  Place from = 0;  ///< without meaning for `back`
  Place to = 0;    ///< without meaning for `aside`
  int count = 0;
  friend bool operator==(const Carry&, const Carry&) = default;
};

/// What there is to do. Each checker that is touched is carried once, or twice when it is laid
/// aside in between.
struct Change {
  std::vector<Carry> carries;  ///< in an order in which no checker lands among the other side's
  int touched = 0;             ///< checkers touched: the fewest that there can be
  int laid_aside = 0;          ///< how many of them are carried twice
  /// Whether `laid_aside` is known to be the fewest too. It is, unless more than
  /// `most_exact_swaps` points change from one side to the other.
  bool fewest_carries = true;
};

inline constexpr std::size_t most_exact_swaps = 14;

/// The fewest checkers that have to be touched: those that a place has too many. Checkers of a side
/// are alike, and borne-off ones lie beside the board.
int checkers_to_touch(const Board& from, const Board& to);

/// How to get from one set-up to the other. Touches the fewest checkers and lays aside the fewest;
/// where no point changes sides, the hands also go the shortest way in all.
Change change_between(const Board& from, const Board& to);

/// The same checkers as they are counted when the board is read from its other end, left for right:
/// what was on the 1 is on the 12.
Board read_mirrored(const Board& board);

/// "2 of Ivory: 8 to 5", "1 of Ivory: 8 aside", "1 of Ivory: back, to 5".
std::string carry_text(const Carry& carry, const std::string& side_name);

}  // namespace pointwright::film

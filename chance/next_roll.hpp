#pragma once

#include <array>
#include <string>
#include <vector>

#include "chance/event.hpp"
#include "rules/ruling.hpp"

namespace pointwright::chance {

/// The legal plays of all 21 rolls from one board: made once, asked many times.
class NextRoll {
 public:
  NextRoll(const Board& board, Side side);

  struct OfRoll {
    Roll roll;
    std::vector<LegalPlay> plays;
  };
  [[nodiscard]] const Board& board() const { return board_; }
  [[nodiscard]] Side side() const { return side_; }
  [[nodiscard]] const std::vector<OfRoll>& rolls() const { return rolls_; }

  /// Whether the roll at that index of `rolls()` answers the query. A side that dances makes the
  /// empty play, which leaves the board as it is.
  [[nodiscard]] bool answers(const Query& query, const OfRoll& roll) const;

 private:
  Board board_;
  Side side_;
  std::vector<OfRoll> rolls_;
};

/// A chance out of 36. Exact.
struct Count {
  int ways = 0;             ///< of 36
  std::vector<Roll> rolls;  ///< that answer the query, in the order of all_rolls()
  std::array<std::array<bool, 6>, 6> grid{};  ///< [first die - 1][second die - 1]
};

/// Counts the rolls that answer a query.
Count count(const NextRoll& next, const Query& query);

/// The count as a teacher would say it: whole dice first ("any 4: 11"), then single rolls; for a
/// hit also what is blocked. Ends with the sum and the fraction in lowest terms.
std::string explain(const NextRoll& next, const Query& query, const SideNames& names = {});

/// The fraction of 36 in lowest terms: "11/36", "3/4"; 0 and 36 give "0" and "1".
std::string fraction_of_36(int ways);

/// A whole chance card: each event that can be asked of this board, with its count. Events that
/// cannot concern the board (such as entering with nobody on the bar) are left out.
struct CardLine {
  Query query;
  Count count;
};
std::vector<CardLine> card(const NextRoll& next);

}  // namespace pointwright::chance

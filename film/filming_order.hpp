#pragma once

#include <cstddef>
#include <vector>

#include "film/assignment.hpp"
#include "film/set_up.hpp"
#include "film/shots.hpp"

/// In which order to film the shots when the script does not say.
namespace pointwright::film {

struct FilmingOrder {
  std::vector<std::size_t> order;  ///< shots, from 0
  long touched = 0;                ///< checkers touched in this order, the first set-up included
  long at_least = 0;               ///< no order needs fewer
  [[nodiscard]] bool is_best() const { return touched == at_least; }
};

/// The longest list whose best order is found for certain.
inline constexpr std::size_t longest_exact_list = 15;

/// Costs of going from shot to shot. Row and column i + 1 are those of shot i; row 0 is the table
/// before the first shot; column 0 is not used.
using TransferCosts = CostTable;

/// Checkers to touch between each two shots: from where one leaves the board to where another needs
/// it, and from the board with all checkers beside it to each.
TransferCosts transfer_costs(const std::vector<Shot>& shots);

/// Checkers touched when the shots are filmed in an order.
long touched_in(const TransferCosts& costs, const std::vector<std::size_t>& order);

/// The best order for at most `longest_exact_list` shots, by the method of Held and Karp ("A
/// Dynamic Programming Approach to Sequencing Problems", Journal of SIAM 10, 1962).
FilmingOrder exact_order(const TransferCosts& costs);

/// A good order for any number of shots, and a bound from below: each shot but the last leads to
/// one other, which is an assignment; the cheapest assignment cannot be undercut by an order.
FilmingOrder good_order(const TransferCosts& costs);

/// The one of the two that the length of the list allows.
FilmingOrder filming_order(const TransferCosts& costs);

/// From where a shot leaves the board to where the next one needs it, when one camera position
/// serves both: a shot seen with the home board on the other hand is set up the other way round.
Change change_between(const Shot& from, const Shot& to);

/// From the board with all checkers beside it.
Change first_set_up(const Shot& shot);

/// To film a shot once more.
Change once_more(const Shot& shot);

}  // namespace pointwright::film

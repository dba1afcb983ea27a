#include <fmt/format.h>

#include <array>

#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::array<std::string_view, 1> forms{"pips SIDE N"};

/// "24x2 is 48, 13x5 is 65": how the count adds up.
std::string sum_of(const Board& board, Side side) {
  std::vector<std::string> terms;
  for (Place place = bar_place; place > off_place; --place) {
    const int n = board.count(side, place);
    if (n > 0) terms.push_back(fmt::format("{} x {}", n, static_cast<int>(place)));
  }
  std::string sum;
  for (const std::string& term : terms) sum += (sum.empty() ? "" : " + ") + term;
  return sum.empty() ? "0" : sum;
}

Answer check(const Ask& ask) {
  const Side side = ask.side("SIDE");
  const int pips = pip_count(ask.position().board, side);
  const std::string sentence =
      fmt::format("{} has {} to go.", Name(ask, side), counted(pips, "pip"));
  const std::string on_bar =
      ask.position().board.count(side, bar_place) > 0 ? " A checker on the bar counts 25." : "";
  const std::string proof = fmt::format("Checkers times points: {} = {}.{}",
                                        sum_of(ask.position().board, side), pips, on_bar);
  if (pips == ask.number("N")) return Proved{sentence, proof};
  return Refuted{sentence, proof, "N", fmt::format("pips {} {}", name(side), pips)};
}

}  // namespace

const ClaimKind pips_claim{
    .name = "pips",
    .forms = forms,
    .says = "The side's pip count: for each checker the number of its point, 25 on the bar.",
    .example_board = "start",
    .example = "pips light 167",
    .counterexample = "pips dark 165",
    .check = check,
};

}  // namespace pointwright::lesson

#include <fmt/format.h>

#include <array>

#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::array<std::string_view, 1> forms{"SIDE wins KIND for N"};

Answer check(const Ask& ask) {
  const auto result = result_of(ask.position());
  if (!result) {
    return Refuted{
        "The game is not over.",
        fmt::format("{} has {} left and {} has {}.", Name(ask, Side::light),
                    counted(checkers_per_side - ask.position().board.count(Side::light, off_place),
                            "checker"),
                    ask.names()[Side::dark],
                    counted(checkers_per_side - ask.position().board.count(Side::dark, off_place),
                            "checker")),
        "", ""};
  }
  const std::string points = counted(static_cast<std::int64_t>(result->points), "point");
  const std::string sentence =
      fmt::format("{} has won a {}{}, worth {}.", Name(ask, result->winner), name(result->kind),
                  result->kind == WinKind::single ? " game" : "", points);
  const std::string proof = explain(*result, ask.position(), ask.names());
  const bool same_side = result->winner == ask.side("SIDE");
  const bool same_kind = result->kind == ask.win("KIND");
  const bool same_points = result->points == static_cast<std::uint64_t>(ask.number("N"));
  if (same_side && same_kind && same_points) return Proved{sentence, proof};
  return Refuted{
      sentence, proof,
      !same_side   ? "SIDE"
      : !same_kind ? "KIND"
                   : "N",
      fmt::format("{} wins {} for {}", name(result->winner), name(result->kind), result->points)};
}

}  // namespace

const ClaimKind wins_claim{
    .name = "wins",
    .forms = forms,
    .says =
        "The game is over: the side has won it this way, and it is worth N points under the "
        "cube and the house rules.",
    .example_board = "light offx15; dark 6x10 3x5; cube 2 with dark",
    .example = "light wins gammon for 4",
    .counterexample = "light wins single for 2",
    .check = check,
};

}  // namespace pointwright::lesson

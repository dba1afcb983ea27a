#include "app/contact_ending.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "app/numbers.hpp"
#include "chance/rules_of_thumb.hpp"
#include "judge/cube_model.hpp"

namespace pointwright::app {
namespace {

constexpr std::array<Side, 2> sides{Side::light, Side::dark};
bool may_double(const Position& position) {
  const CubeAccess access = judge::cube_access(position, *position.turn);
  return access == CubeAccess::centred || access == CubeAccess::mine;
}

}  // namespace

bool within_three_checkers(const Board& board) {
  constexpr int least_off = checkers_per_side - three_checker_most;
  return board.count(Side::light, off_place) >= least_off &&
         board.count(Side::dark, off_place) >= least_off;
}

std::optional<ContactEnding> contact_ending(const Position& position, EndingTables& tables) {
  if (!within_three_checkers(position.board)) return std::nullopt;
  const ThreeCheckerTable* table = tables.three_checkers();
  if (table == nullptr || !table->covers(position.board)) return std::nullopt;
  return ContactEnding{table->win(position.board, *position.turn),
                       table->values(position.board, *position.turn)};
}

Fault contact_fault(const Position& position) {
  if (within_three_checkers(position.board)) {
    return {.id = "contact",
            .where = {},
            .reason = "the sides can still meet, and the table of this endgame is not there",
            .fix =
                "build it once with `pointwright tables build --three-checker` (172 MB; some "
                "minutes), and ask again: the answer is then exact, hits included"};
  }
  return {.id = "contact",
          .where = {},
          .reason = "the sides can still meet, so the answer depends on hits",
          .fix =
              "give a position in which the sides have passed each other, or in which each has "
              "at most three checkers left; `pointwright worth` estimates this one, and "
              "`pointwright chances` counts its hits"};
}

Json contact_object(const Position& position, const ContactEnding& ending) {
  const Side on_roll = *position.turn;
  Position asked = position;
  asked.roll.reset();
  Json result{{"position", to_text(asked)}};
  if (position.roll) result["roll_ignored"] = to_text(*position.roll);
  result["on_roll"] = name(on_roll);
  result["contact"] = true;
  for (const Side side : sides) {
    const double win = side == on_roll ? ending.win : 1 - ending.win;
    result[std::string{name(side)}] = {{"pips", pip_count(position.board, side)}};
    result["win"][std::string{name(side)}] = rounded(win, 6);
  }
  result["known"] = known_exact;
  result["error"] = three_checker_error;
  result["how"] = contact_how;
  if (ending.cube && may_double(position)) {
    result["cube"] = {
        {"advice", name(exact_advice(*ending.cube, position.cube.holder.has_value()))},
        {"known", known_exact}};
  }
  return result;
}

void print_contact(const Position& position, const ContactEnding& ending, Io& io) {
  const Side on_roll = *position.turn;
  const Side other = opponent(on_roll);
  io.out << painted(Ink::strong,
                    fmt::format("No race yet: the sides can still meet, with {} to roll",
                                name(on_roll)),
                    io.colour_out)
         << "\n         pips\n";
  for (const Side side : sides) {
    io.out << fmt::format("  {:<5}  {:>4}\n", name(side), pip_count(position.board, side));
  }
  io.out << wrapped(fmt::format("{} wins {} of the games, {} {} (exact).", name(on_roll),
                                percent(ending.win), name(other), percent(1 - ending.win)),
                    io.width)
         << wrapped(fmt::format("{}.", contact_how), io.width, 2);
  if (!may_double(position)) return;
  if (!ending.cube) {
    std::string sentence = fmt::format("{}.", no_cube_value);
    sentence.front() = 'W';
    io.out << wrapped(sentence, io.width);
    return;
  }
  io.out << wrapped(
      fmt::format("For money: {}, exact. `pointwright cube` gives what each choice is worth.",
                  name(exact_advice(*ending.cube, position.cube.holder.has_value()))),
      io.width);
}

}  // namespace pointwright::app

#include <fmt/format.h>

#include <array>

#include "chance/next_roll.hpp"
#include "chance/two_rolls.hpp"
#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::array<std::string_view, 1> chance_forms{"chance EVENT FRACTION"};
constexpr std::array<std::string_view, 2> now_or_next_forms{
    "now or next EVENT FRACTION", "now or next EVENT against best pips FRACTION"};

/// Whether a fraction says the same as parts out of a whole.
bool agrees(Pair fraction, std::int64_t parts, std::int64_t whole) {
  return fraction.first * whole == parts * fraction.second;
}

Answer check_chance(const Ask& ask) {
  const chance::NextRoll next(ask.position().board, ask.side());
  const chance::Query& query = ask.query("EVENT");
  const int ways = chance::count(next, query).ways;
  const std::string proof = capitalised(chance::explain(next, query, ask.names()));
  const std::string sentence =
      fmt::format("With {} of the 36 rolls {} {} {}.", ways, ask.names()[ask.side()],
                  chance::verb(query.mode), chance::phrase(query.event));
  if (agrees(ask.pair("FRACTION"), ways, 36)) return Proved{sentence, proof};
  return Refuted{sentence, proof, "FRACTION",
                 fmt::format("chance {} {}/36", ask.text("EVENT"), ways)};
}

Answer check_now_or_next(const Ask& ask) {
  const chance::Query& query = ask.query("EVENT");
  if (query.mode != chance::Query::Mode::can)
    return Unanswerable{"`now or next` asks what can happen, over two turns",
                        "leave out must or cannot"};
  const bool by_pips = ask.form() == 1;
  const auto chance = chance::now_or_next(ask.position().board, ask.side(), query.event,
                                          by_pips ? chance::best_by_pips : chance::Chooser{});
  constexpr std::int64_t whole = chance::ThreeRollChance::whole;
  const std::string percent = fmt::format(
      "{:.2f}%", 100.0 * static_cast<double>(chance.least) / static_cast<double>(whole));
  const std::string reply = by_pips ? "the other side replies with its best play for the race"
                                    : "the other side replies as well as it can to prevent it";
  const std::string sentence =
      fmt::format("{} can {} now or on the next turn with chance {}/{}, or {}.",
                  Name(ask, ask.side()), chance::phrase(query.event), chance.least, whole, percent);
  const std::string proof =
      fmt::format("All 36 x 36 x 36 throws were counted: {} throws, {}, and {} throws again.",
                  ask.names()[ask.side()], reply, ask.names()[ask.side()]);
  if (agrees(ask.pair("FRACTION"), chance.least, whole)) return Proved{sentence, proof};
  return Refuted{sentence, proof, "FRACTION",
                 fmt::format("now or next {}{} {}/{}", ask.text("EVENT"),
                             by_pips ? " against best pips" : "", chance.least, whole)};
}

}  // namespace

const ClaimKind chance_claim{
    .name = "chance",
    .forms = chance_forms,
    .says =
        "With so many of the 36 rolls some legal play brings the event about. `must` before "
        "the event: every legal play does; `cannot`: none does.",
    .needs = ClaimKind::Needs::turn,
    .example_board = "light barx1 6x1; dark 6x2 4x2 3x2; light to roll",
    .example = "chance enter 27/36",
    .counterexample = "chance enter 3/36",
    .check = check_chance,
};

const ClaimKind now_or_next_claim{
    .name = "now-or-next",
    .forms = now_or_next_forms,
    .says =
        "The chance to bring the event about with this roll or, failing that, with the next, "
        "counted over all rolls; the reply in between is the one that does most to prevent "
        "it, or the best one for the race.",
    .needs = ClaimKind::Needs::turn,
    .example_board = "light 8x1; dark 24x1; light to roll",
    .example = "now or next hit 7864/46656",
    .counterexample = "now or next hit 1/2",
    .check = check_now_or_next,
};

}  // namespace pointwright::lesson

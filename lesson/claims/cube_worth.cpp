#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "chance/race.hpp"
#include "judge/cube_model.hpp"
#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"
#include "lesson/searched.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::array<std::string_view, 1> equity_forms{"equity SIDE VALUE"};
constexpr std::array<std::string_view, 4> action_forms{
    "cube action hold", "cube action double take", "cube action double drop",
    "cube action too good"};
/// What the forms advise, in their order, with the other side named as well as the side on roll.
constexpr std::array<std::string_view, 4> action_sentences{
    "{0} should hold the cube.", "{0} should double, and {1} should take.",
    "{0} should double, and {1} should drop.",
    "{0} is too good to double: playing on is worth more than the point that {1} would give up."};
enum Advice : std::size_t { hold, double_take, double_drop, too_good };

/// The values with the cube, if the tables of both sides cover the race and it is for points.
std::variant<CubeValues, Unanswerable> values_of(const Ask& ask) {
  if (ask.position().match)
    return Unanswerable{"equities and cube actions are known exactly in games for points only",
                        "leave the match out of the position"};
  const auto race = race_answer(ask.position().board, ask.side());
  if (!race)
    return Unanswerable{std::string(explain(race.error())),
                        "exact numbers of a race need both sides past each other; see "
                        "docs/endings.md"};
  if (!race->cube)
    return Unanswerable{"the tables with a cube hold up to six checkers a side, all at home",
                        "state the chance of winning instead: race chance light 71% +- 3"};
  return *race->cube;
}

std::string cube_sum(const CubeValues& values, CubeAccess access) {
  return fmt::format(
      "Holding is worth {:+.4f} times the cube, offering {:+.4f}: {:+.4f} if taken, "
      "+1 if dropped. Exact, from the tables of both sides.",
      values.hold(access), values.offered(), values.offered_and_taken());
}

Answer check_equity(const Ask& ask) {
  const auto found = values_of(ask);
  if (const auto* none = std::get_if<Unanswerable>(&found)) return *none;
  const auto& values = std::get<CubeValues>(found);
  const CubeAccess whose = judge::cube_access(ask.position(), ask.side());
  const Side side = ask.side("SIDE");
  const double equity = (side == ask.side() ? 1 : -1) * values.equity(whose);
  const bool may_offer = whose == CubeAccess::centred || whose == CubeAccess::mine;
  return judged(
      ask, "VALUE", equity,
      fmt::format("The position is worth {:+.4f} times the cube to {}.", equity, ask.names()[side]),
      may_offer ? cube_sum(values, whose)
                : "Exact, from the tables of both sides; the side on roll may not double.",
      fmt::format("equity {} {:.3f} +- 0.001", name(side), equity));
}

std::string sentence_of(const Ask& ask, std::size_t advice) {
  return fmt::format(fmt::runtime(action_sentences[advice]), Name(ask, ask.side()),
                     ask.names()[opponent(ask.side())]);
}

Answer refuted(const Ask& ask, std::size_t right, std::string proof) {
  return Refuted{sentence_of(ask, right), std::move(proof), {}, std::string(action_forms[right])};
}

Answer check_exactly(const Ask& ask, const CubeValues& values) {
  const CubeAccess whose = judge::cube_access(ask.position(), ask.side());
  const Advice right = !values.should_offer(whose) ? hold
                       : values.should_take()      ? double_take
                                                   : double_drop;
  if (right == ask.form()) return Proved{sentence_of(ask, right), cube_sum(values, whose)};
  return refuted(ask, right, cube_sum(values, whose));
}

Advice advice_of(const judge::CubeDecision& decision) {
  switch (decision.action) {
    case judge::CubeAction::none:
    case judge::CubeAction::hold:
      return hold;
    case judge::CubeAction::too_good:
      return too_good;
    case judge::CubeAction::offer:
      break;
  }
  return decision.reply == judge::CubeReply::drop ? double_drop : double_take;
}

/// "any of `cube action hold` and ... may be right": the advices that come out.
std::string between(const std::array<int, action_forms.size()>& counts) {
  std::vector<std::string> possible;
  for (std::size_t i = 0; i < counts.size(); ++i) {
    if (counts[i] > 0) possible.push_back(fmt::format("`{}`", action_forms[i]));
  }
  return fmt::format("any of {} may be right", listed(possible));
}

/// How the model decides when the searched chances are off by as much as they may be, either way,
/// and the cube has as little or as much life as it may: how often each advice comes out.
std::array<int, action_forms.size()> advice_within_error(const SearchedPosition& found,
                                                         const judge::CubeSituation& situation) {
  std::array<int, action_forms.size()> counts{};
  const auto moved = [](const Searched& chance, int step) {
    const double value = chance.value + step * chance.error(chance_error);
    return static_cast<float>(std::clamp(value, 0.0, 1.0));
  };
  for (const int win : {-1, 0, 1}) {
    for (const int gammon : {-1, 0, 1}) {
      for (const int lost_gammon : {-1, 0, 1}) {
        judge::Chances chances;
        chances.win = moved(found.win, win);
        chances.win_gammon = std::min(moved(found.gammon, gammon), chances.win);
        chances.lose_gammon = std::min(moved(found.lost_gammon, lost_gammon), 1 - chances.win);
        for (const double life : {least_cube_life, situation.life, most_cube_life}) {
          judge::CubeSituation here = situation;
          here.life = life;
          ++counts[advice_of(judge::decide(chances, here))];
        }
      }
    }
  }
  return counts;
}

Answer check_by_model(const Ask& ask) {
  const auto valuation = valuation_for(ask);
  if (const auto* none = std::get_if<Unanswerable>(&valuation)) return *none;
  const auto situation = judge::cube_situation(ask.position(), ask.side());
  if (!situation)
    return Unanswerable{"the match is over, or longer than the match table",
                        "state a shorter match, or leave it out"};
  const SearchedPosition found = searched_position(ask, std::get<judge::Valuation>(valuation));
  const auto counts = advice_within_error(found, *situation);
  const auto most = std::max_element(counts.begin(), counts.end());
  const auto right = static_cast<std::size_t>(most - counts.begin());
  const std::string proof = fmt::format(
      "Modelled: {} wins {:.1f}%, {:.1f}% with a gammon, and loses {:.1f}% with one, searched two "
      "rolls ahead; the cube's life is taken as {:.2f} to {:.2f}.",
      ask.names()[ask.side()], 100 * found.win.value, 100 * found.gammon.value,
      100 * found.lost_gammon.value, least_cube_life, most_cube_life);
  const bool settled =
      std::count(counts.begin(), counts.end(), 0) == static_cast<std::ptrdiff_t>(counts.size() - 1);
  if (counts[ask.form()] == 0) {
    if (settled) return refuted(ask, right, proof);
    return Refuted{
        fmt::format("Within the error of the chances and of the model {}.", between(counts)),
        proof,
        {},
        {}};
  }
  if (settled) return Proved{sentence_of(ask, right), proof, how_known(false)};
  return Unsettled{
      fmt::format("this cannot be settled: within the error of the chances and of the model {}",
                  between(counts)),
      "choose a clearer position, or claim `race chance` or `win chance` with a tolerance"};
}

Answer check_action(const Ask& ask) {
  const CubeAccess whose = judge::cube_access(ask.position(), ask.side());
  if (whose != CubeAccess::centred && whose != CubeAccess::mine)
    return Unanswerable{fmt::format("{} may not turn the cube here", ask.names()[ask.side()]),
                        "set the cube in the middle or with the side on roll, in a game that is "
                        "played with one"};
  const auto exact = values_of(ask);
  if (const auto* values = std::get_if<CubeValues>(&exact)) return check_exactly(ask, *values);
  return check_by_model(ask);
}

}  // namespace

const ClaimKind equity_claim{
    .name = "equity",
    .forms = equity_forms,
    .says =
        "What the position is worth to the side, in units of the cube, in a game for points "
        "with the cube where it stands and best play by both.",
    .needs = ClaimKind::Needs::turn,
    .example_board = "light 5x1 2x1; dark 4x1 1x1; light to roll; cube 2 with light",
    .example = "equity light 0.24 +- 0.01",
    .counterexample = "equity light 0.11 +- 0.01",
    .check = check_equity,
};

const ClaimKind cube_action_claim{
    .name = "cube-action",
    .forms = action_forms,
    .says =
        "What the side on roll should do about the cube, and the other side if it is offered. "
        "Exact in races at home for points with up to six checkers a side; elsewhere by a model, "
        "and proved only where no error of the model or of the search would change it.",
    .needs = ClaimKind::Needs::turn,
    .example_board = "light 5x1 2x1; dark 4x1 1x1; light to roll; cube 2 with light",
    .example = "cube action hold",
    .counterexample = "cube action double take",
    .check = check_action,
};

}  // namespace pointwright::lesson

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <limits>

#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"
#include "lesson/searched.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::array<std::string_view, 2> best_forms{"best play PLAY", "best play PLAY by VALUE"};
constexpr std::array<std::string_view, 1> cost_forms{"costs VALUE with PLAY"};

/// The claimed play beside the best of the others, as searched.
struct Judged {
  SearchedPlay claimed;
  std::optional<SearchedPlay> rival;  ///< the best other play; none where the play is forced
  Searched lead;                      ///< of the claimed play over the rival

  [[nodiscard]] double error() const { return lead.error(lead_error); }
};

/// The referee's answer where the play is refused.
Refuted not_allowed(const Ask& ask, const Ruling& ruling) {
  std::string correction;
  if (ruling.rule != nullptr) {
    correction = fmt::format("illegal {} because {}", ask.text("PLAY"), ruling.rule->id);
  }
  const bool passes = ask.play("PLAY").journeys.empty();
  return {passes
              ? fmt::format("{} may not pass with {}.", Name(ask, ask.side()), to_text(ask.roll()))
              : fmt::format("{} may not play {} with {}.", Name(ask, ask.side()), ask.text("PLAY"),
                            to_text(ask.roll())),
          ruling.proof, "PLAY", correction};
}

Judged judged_play(const Ask& ask, const judge::Valuation& valuation, const Board& wanted) {
  const std::vector<SearchedPlay> plays = searched_plays(ask, valuation, wanted);
  Judged result{.claimed = plays.front(), .rival = std::nullopt, .lead = {}};
  for (const SearchedPlay& play : plays) {
    if (play.play.after == wanted) {
      result.claimed = play;
    } else if (!result.rival) {
      result.rival = play;
    }
  }
  if (!result.rival) {
    result.lead = {.value = 0, .before = 0, .exact = true};
    return result;
  }
  const Searched& mine = result.claimed.equity;
  const Searched& other = result.rival->equity;
  result.lead = {mine.value - other.value, mine.before - other.before, mine.exact && other.exact};
  return result;
}

/// "8/5 6/5 is worth +0.153 and 24/23 13/10 -0.011, searched two rolls ahead; ..."
std::string proof_of(const Judged& judged) {
  if (!judged.rival) return "It is the only legal play.";
  return fmt::format(
      "{} is worth {:+.3f} points a game and {} {:+.3f}, {}.", to_text(judged.claimed.play.play),
      judged.claimed.equity.value, to_text(judged.rival->play.play), judged.rival->equity.value,
      judged.lead.exact
          ? "exactly, from a table"
          : fmt::format("searched two rolls ahead; the difference may be off by {:.3f}",
                        judged.error()));
}

Unsettled open(const Judged& judged) {
  return {fmt::format("this cannot be settled: {}", proof_of(judged)),
          "claim what the search can tell: a larger difference, or a wider tolerance"};
}

/// The best play as a claim that is proved, or nothing where none is.
std::string best_as_claim(const Judged& judged) {
  if (!judged.rival || judged.lead.value + judged.error() > 0) return {};
  return fmt::format("best play {}", to_text(judged.rival->play.play));
}

Answer check_best(const Ask& ask) {
  const Ruling ruling = rule_on(ask.position(), ask.play("PLAY"), ask.names());
  if (!ruling.allowed) return not_allowed(ask, ruling);
  const auto valuation = valuation_for(ask);
  if (const auto* none = std::get_if<Unanswerable>(&valuation)) return *none;
  const Judged judged = judged_play(ask, std::get<judge::Valuation>(valuation), ruling.after);
  const std::string play = to_text(ruling.play);
  const bool by = ask.form() == 1;
  const double least = by ? ask.stated("VALUE").value : 0;
  if (by && !judged.rival) {
    return Unanswerable{"it is the only legal play, so there is nothing to compare it with",
                        "leave out what follows the play"};
  }
  const std::string truth =
      judged.lead.value >= 0
          ? fmt::format("{}'s best play of {} is {}{}.", Name(ask, ask.side()), to_text(ask.roll()),
                        play, by ? fmt::format(", by at least {:.3g} points", least) : "")
          : fmt::format("{}'s best play of {} is {}.", Name(ask, ask.side()), to_text(ask.roll()),
                        to_text(judged.rival->play.play));
  switch (settle(judged.lead.value, judged.error(), least, std::numeric_limits<double>::max())) {
    case Settled::yes:
      return Proved{truth, proof_of(judged), how_known(judged.lead.exact)};
    case Settled::open:
      return open(judged);
    case Settled::no:
      break;
  }
  if (judged.lead.value - judged.error() >= 0) {
    // The best, but not by so much.
    const double safe = std::floor(100 * (judged.lead.value - judged.error())) / 100;
    return Refuted{fmt::format("{} is the best play of {}, by {:.3f} points.", play,
                               to_text(ask.roll()), judged.lead.value),
                   proof_of(judged), "VALUE", fmt::format("best play {} by {:.2f}", play, safe)};
  }
  return Refuted{truth, proof_of(judged), "PLAY", best_as_claim(judged)};
}

Answer check_cost(const Ask& ask) {
  const Ruling ruling = rule_on(ask.position(), ask.play("PLAY"), ask.names());
  if (!ruling.allowed) return not_allowed(ask, ruling);
  const auto valuation = valuation_for(ask);
  if (const auto* none = std::get_if<Unanswerable>(&valuation)) return *none;
  const Judged judged = judged_play(ask, std::get<judge::Valuation>(valuation), ruling.after);
  const std::string play = to_text(ruling.play);
  // The best play costs nothing; any other what the best is worth more.
  const bool is_best = judged.lead.value >= 0;
  const double cost = is_best ? 0 : -judged.lead.value;
  const double error = is_best ? std::max(0.0, judged.error() - judged.lead.value) : judged.error();
  const Stated& stated = ask.stated("VALUE");
  const std::string truth = fmt::format("{} costs {} {:.3f} points beside the best play.", play,
                                        ask.names()[ask.side()], cost);
  switch (settle(cost, error, stated.value - stated.tolerance, stated.value + stated.tolerance)) {
    case Settled::yes:
      return Proved{truth, proof_of(judged), how_known(judged.lead.exact)};
    case Settled::open:
      return open(judged);
    case Settled::no:
      break;
  }
  return Refuted{truth, proof_of(judged), "VALUE",
                 fmt::format("costs {:.2f} +- {:.2f} with {}", cost,
                             std::ceil(100 * (error + 0.006)) / 100, ask.text("PLAY"))};
}

}  // namespace

const ClaimKind best_play_claim{
    .name = "best-play",
    .forms = best_forms,
    .says =
        "No other play of the roll is worth more, without a further turn of the cube; with a "
        "value, none comes within so many points a game of it.",
    .needs = ClaimKind::Needs::roll,
    .example_board = "start; light to play 3-1",
    .example = "best play 8/5 6/5 by 0.1",
    .counterexample = "best play 24/20",
    .check = check_best,
};

const ClaimKind play_cost_claim{
    .name = "play-cost",
    .forms = cost_forms,
    .says = "What the play costs beside the best one, in points a game.",
    .needs = ClaimKind::Needs::roll,
    .example_board = "start; light to play 3-1",
    .example = "costs 0.17 +- 0.06 with 24/20",
    .counterexample = "costs 0.01 +- 0.03 with 24/20",
    .check = check_cost,
};

}  // namespace pointwright::lesson

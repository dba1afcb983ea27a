#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "lesson/claims/all.hpp"
#include "lesson/claims/wording.hpp"
#include "lesson/sampled.hpp"
#include "lesson/searched.hpp"

namespace pointwright::lesson {
namespace {

constexpr std::array<std::string_view, 4> best_forms{"best play PLAY", "best play PLAY by VALUE",
                                                     "best play PLAY rolled out",
                                                     "best play PLAY by VALUE rolled out"};
constexpr std::array<std::string_view, 2> cost_forms{"costs VALUE with PLAY",
                                                     "costs VALUE with PLAY rolled out"};

/// Plays so near the best, as searched, are rolled out; no more than so many beside the claimed.
constexpr double contender_within = 0.12;
constexpr std::size_t most_contenders = 2;

/// A play and what it is worth to the side that plays.
struct Worth {
  Play play;
  double equity = 0;
};

/// The claimed play beside the best of the others.
struct Judged {
  Worth claimed;
  std::optional<Worth> rival{};  ///< none where the play is forced
  double lead = 0;               ///< of the claimed play over the rival
  double error = 0;              ///< how far off the lead may be
  HowKnown known{};
  std::uint64_t trials = 0;  ///< of a rollout
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

Judged judged_by_search(const std::vector<SearchedPlay>& plays, const Board& wanted) {
  Judged result;
  Searched mine;
  std::optional<Searched> other;
  for (const SearchedPlay& play : plays) {
    const Worth worth{play.play.play, play.equity.value};
    if (play.play.after == wanted) {
      result.claimed = worth;
      mine = play.equity;
    } else if (!other) {
      result.rival = worth;
      other = play.equity;
    }
  }
  if (!other) return result;
  const Searched lead{mine.value - other->value, mine.before - other->before,
                      mine.exact && other->exact};
  result.lead = lead.value;
  result.error = lead.error(lead_error);
  result.known = how_known(lead.exact);
  return result;
}

/// The plays that might be best, rolled out beside the claimed one. `threshold` is the lead that
/// the claim turns on.
Judged judged_by_rollout(const Ask& ask, const judge::Valuation& valuation,
                         const std::vector<SearchedPlay>& plays, const Board& wanted,
                         double threshold) {
  Judged result = judged_by_search(plays, wanted);
  if (!result.rival || result.known.kind == HowKnown::Kind::exact) return result;
  std::vector<const SearchedPlay*> rivals;
  std::vector<Board> boards;
  for (const SearchedPlay& play : plays) {
    if (play.play.after == wanted || rivals.size() == most_contenders) continue;
    if (play.equity.value < plays.front().equity.value - contender_within && !rivals.empty()) break;
    rivals.push_back(&play);
    boards.push_back(play.play.after);
  }
  const SampledPlays sampled = sampled_plays(ask, valuation, wanted, boards, threshold);
  const auto nearest = std::ranges::min_element(sampled.rivals, {}, &SampledRival::lead);
  const SearchedPlay& rival = *rivals[static_cast<std::size_t>(nearest - sampled.rivals.begin())];
  result.claimed.equity = sampled.equity;
  result.rival = Worth{rival.play.play, nearest->equity};
  result.lead = nearest->lead;
  result.error = sampled_errors * nearest->lead_error + sampled_bias;
  result.known = {.kind = HowKnown::Kind::sampled, .standard_error = nearest->lead_error};
  result.trials = sampled.trials;
  return result;
}

/// "searched two rolls ahead; the difference may be off by 0.030"
std::string how_words(const Judged& judged) {
  switch (judged.known.kind) {
    case HowKnown::Kind::exact:
      return "exactly, from a table";
    case HowKnown::Kind::searched:
      return fmt::format("searched two rolls ahead; the difference may be off by {:.3f}",
                         judged.error);
    case HowKnown::Kind::sampled:
      break;
  }
  return fmt::format(
      "rolled out {} times with the same dice; the difference has a standard error of {:.4f} and "
      "may be off by {:.3f}",
      judged.trials, judged.known.standard_error, judged.error);
}

/// "8/5 6/5 is worth +0.153 points a game and 24/23 13/10 -0.011, ..."
std::string proof_of(const Judged& judged) {
  if (!judged.rival) return "It is the only legal play.";
  return fmt::format("{} is worth {:+.3f} points a game and {} {:+.3f}, {}.",
                     to_text(judged.claimed.play), judged.claimed.equity,
                     to_text(judged.rival->play), judged.rival->equity, how_words(judged));
}

Unsettled open(const Judged& judged) {
  return {fmt::format("this cannot be settled: {}", proof_of(judged)),
          judged.trials > 0
              ? "claim what is known: a larger difference, or a wider tolerance"
              : "claim what the search can tell: a larger difference, or a wider tolerance; or add "
                "`rolled out`, which takes seconds and tells more"};
}

/// The best play as a claim that is proved, or nothing where none is.
std::string best_as_claim(const Judged& judged, std::string_view ending) {
  if (!judged.rival || judged.lead + judged.error > 0) return {};
  return fmt::format("best play {}{}", to_text(judged.rival->play), ending);
}

/// The claimed play of an ask, judged, or why it cannot be.
std::variant<Judged, Answer> judge_play(const Ask& ask, const Ruling& ruling, bool rolled_out,
                                        double threshold) {
  if (!ruling.allowed) return Answer{not_allowed(ask, ruling)};
  const auto valuation = valuation_for(ask);
  if (const auto* none = std::get_if<Unanswerable>(&valuation)) return Answer{*none};
  const auto& stakes = std::get<judge::Valuation>(valuation);
  const std::vector<SearchedPlay> plays = searched_plays(ask, stakes, ruling.after);
  return rolled_out ? judged_by_rollout(ask, stakes, plays, ruling.after, threshold)
                    : judged_by_search(plays, ruling.after);
}

constexpr std::string_view rolled_out_ending = " rolled out";

Answer check_best(const Ask& ask) {
  const bool by = ask.form() == 1 || ask.form() == 3;
  const bool rolled_out = ask.form() >= 2;
  const std::string_view ending = rolled_out ? rolled_out_ending : std::string_view{};
  const double least = by ? ask.stated("VALUE").value : 0;
  const Ruling ruling = rule_on(ask.position(), ask.play("PLAY"), ask.names());
  const auto found = judge_play(ask, ruling, rolled_out, least);
  if (const auto* answer = std::get_if<Answer>(&found)) return *answer;
  const auto& judged = std::get<Judged>(found);
  const std::string play = to_text(ruling.play);
  if (by && !judged.rival) {
    return Unanswerable{"it is the only legal play, so there is nothing to compare it with",
                        "leave out what follows the play"};
  }
  const std::string truth =
      judged.lead >= 0
          ? fmt::format("{}'s best play of {} is {}{}.", Name(ask, ask.side()), to_text(ask.roll()),
                        play, by ? fmt::format(", by at least {:.3g} points", least) : "")
          : fmt::format("{}'s best play of {} is {}.", Name(ask, ask.side()), to_text(ask.roll()),
                        to_text(judged.rival->play));
  switch (settle(judged.lead, judged.error, least, std::numeric_limits<double>::max())) {
    case Settled::yes:
      return Proved{truth, proof_of(judged), judged.known};
    case Settled::open:
      return open(judged);
    case Settled::no:
      break;
  }
  if (judged.lead - judged.error >= 0) {
    // The best, but not by so much.
    const double safe = std::floor(100 * (judged.lead - judged.error)) / 100;
    return Refuted{fmt::format("{} is the best play of {}, by {:.3f} points.", play,
                               to_text(ask.roll()), judged.lead),
                   proof_of(judged), "VALUE",
                   fmt::format("best play {} by {:.2f}{}", play, safe, ending)};
  }
  return Refuted{truth, proof_of(judged), "PLAY", best_as_claim(judged, ending)};
}

Answer check_cost(const Ask& ask) {
  const bool rolled_out = ask.form() == 1;
  const Stated& stated = ask.stated("VALUE");
  const Ruling ruling = rule_on(ask.position(), ask.play("PLAY"), ask.names());
  const auto found = judge_play(ask, ruling, rolled_out, -stated.value);
  if (const auto* answer = std::get_if<Answer>(&found)) return *answer;
  const auto& judged = std::get<Judged>(found);
  const std::string play = to_text(ruling.play);
  // The best play costs nothing; any other what the best is worth more.
  const bool is_best = judged.lead >= 0;
  const double cost = is_best ? 0 : -judged.lead;
  const double error = is_best ? std::max(0.0, judged.error - judged.lead) : judged.error;
  const std::string truth = fmt::format("{} costs {} {:.3f} points beside the best play.", play,
                                        ask.names()[ask.side()], cost);
  switch (settle(cost, error, stated.value - stated.tolerance, stated.value + stated.tolerance)) {
    case Settled::yes:
      return Proved{truth, proof_of(judged), judged.known};
    case Settled::open:
      return open(judged);
    case Settled::no:
      break;
  }
  return Refuted{
      truth, proof_of(judged), "VALUE",
      fmt::format("costs {:.2f} +- {:.2f} with {}{}", cost, std::ceil(100 * (error + 0.006)) / 100,
                  ask.text("PLAY"), rolled_out ? rolled_out_ending : std::string_view{})};
}

}  // namespace

const ClaimKind best_play_claim{
    .name = "best-play",
    .forms = best_forms,
    .says =
        "No other play of the roll is worth more, without a further turn of the cube; with a "
        "value, none comes within so many points a game of it. `rolled out` plays the contenders "
        "on "
        "many times, which takes seconds the first time and settles closer plays.",
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

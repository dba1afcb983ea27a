#pragma once

#include <string_view>

#include "app/advice.hpp"
#include "app/json.hpp"
#include "rules/result.hpp"

namespace pointwright::app {

/// What to print of an advice.
struct AdviceView {
  std::size_t top = 5;                 ///< plays shown, the best first
  std::optional<std::size_t> asked{};  ///< the play that was asked about
};

/// The advice as {"position", "played_for", "depth", "legal", "plays": […], "why": {…}}. Each play
/// is {"play", "after", "equity", "cost", "grade", "chances", "known", "depth"}; of a rollout
/// "known" is "sampled", with "error" and "cost_error" in place of "depth". "why" compares the best
/// play with the one asked about, or with the second: {"first", "second", "difference", "rolls",
/// "sentences"}.
Json advice_object(const Advice& advice, const AdviceView& view);

/// Answers one line of a batch, `POSITION` or `POSITION | PLAY`. A play that the rules refuse is
/// answered with {"position", "attempt", "allowed": false, …} as by `rule`.
Result<Json, Failure> answer_advise(judge::Search& search, std::string_view line,
                                    const AdviceEffort& effort, std::size_t top);

}  // namespace pointwright::app

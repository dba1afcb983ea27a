#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "judge/position_valuation.hpp"
#include "judge/reasons.hpp"
#include "judge/search.hpp"
#include "rules/position.hpp"

/// Advice on a roll, for the verbs that give it.
namespace pointwright::app {

/// One legal play in the order of merit.
struct AdvisedPlay {
  judge::RankedPlay ranked;
  double cost = 0;  ///< what it is worth less than the first; never negative for plays looked at
                    ///< as deeply
  /// Of a rollout: the standard errors of its equity and of its cost.
  std::optional<double> error{};
  double cost_error = 0;
};

/// What can be said about the plays of a roll.
struct Advice {
  Position position;
  judge::Valuation valuation;        ///< of the side to play
  int depth = 0;                     ///< as asked for
  std::uint64_t trials = 0;          ///< of the rollout; 0 if there was none
  std::vector<AdvisedPlay> plays{};  ///< every legal play, best first; none when the side dances
};

/// How much work advice may take.
struct AdviceEffort {
  int depth = 1;
  std::uint64_t most_trials = 0;  ///< of the rollout of the best plays; 0: none
  unsigned threads = 1;           ///< that share the trials
};

/// Ranks the plays of a position. A play that leads to `wanted` is looked at as deeply as the best,
/// even if the sieve of the search would have passed over it. Precondition: the position has a turn
/// and a roll, its game is not over, and `valuation` is that of the side to play.
Advice advise(const Position& position, const judge::Valuation& valuation, AdviceEffort effort,
              const std::optional<Board>& wanted = std::nullopt);
/// The same with a search that is there already.
Advice advise(judge::Search& search, const Position& position, const judge::Valuation& valuation,
              AdviceEffort effort, const std::optional<Board>& wanted = std::nullopt);

/// The index of the play that leads to a board. Precondition: there is one.
std::size_t index_of(const Advice& advice, const Board& after);

/// Why the one play comes before or after the other, with all that the sentences are made from.
struct Why {
  judge::Considered first;
  judge::Considered second;
  std::vector<judge::Reason> reasons{};
};
Why why(const Advice& advice, std::size_t first, std::size_t second, const SideNames& names = {});

/// How the worth of a play is known: a word of app/numbers.hpp.
std::string_view known_word(const AdvisedPlay& play);

/// The same for a person: "exact", "1 roll ahead", "at once", "+- 0.012".
std::string known_words(const AdvisedPlay& play);

}  // namespace pointwright::app

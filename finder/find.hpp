#pragma once

#include <cstdint>
#include <functional>
#include <string>

#include "finder/build.hpp"
#include "finder/families.hpp"
#include "finder/search.hpp"

namespace pointwright::finder {

/// Where findings come from.
enum class Road : std::uint8_t {
  build,     ///< sparse boards, built and thinned out; small families if that finds nothing
  smallest,  ///< complete enumeration, the smallest families first
  games,     ///< positions met in games
};

/// How a search ended.
enum class End : std::uint8_t {
  enough,           ///< as many were found as were wanted
  all,              ///< every position that there is was found; there are no more
  none_exists,      ///< proved: no position whatever makes the query true
  none_that_small,  ///< none up to a number of checkers, proved; no larger one was found
  stopped,          ///< the effort was spent
};

struct Options {
  Road road = Road::build;
  int count = 3;
  std::uint64_t seed = 1;
  Effort effort;
  /// Work that complete enumeration may take, counted as in Facts.
  std::int64_t work_to_enumerate = 36'000'000;
  /// Games that are played to be looked through.
  int most_games = 4000;
  /// Asked now and then; true stops the search where it is.
  std::function<bool()> interrupted;
};

/// What a search found out besides its findings.
struct Report {
  End end = End::stopped;
  int found = 0;
  /// Complete enumeration showed that nothing with fewer checkers in play (both sides together)
  /// makes the query true, but for what was found.
  int proved_below = 0;
  bool smallest_is_proved = false;  ///< the first finding is proved to be among the smallest
  std::int64_t looked_at = 0;       ///< positions with their rolls
  int games = 0;                    ///< games played
};

/// A finding with what is known of where it comes from.
struct Found {
  Finding finding;
  bool proved_smallest = false;  ///< no position with fewer checkers in play makes the query true
  std::uint64_t game = 0;        ///< for Road::games: which game, and after how many turns
  int turn = 0;
};

using TakeFound = std::function<bool(const Found&)>;

/// Searches until `options.count` findings were taken, the effort is spent, or nothing is left.
/// Calls `take` for each finding as it comes; it returns whether to go on.
Report find(const Wanted& wanted, const Options& options, const TakeFound& take);

/// How it ended, in a sentence.
std::string in_words(const Report& report);

}  // namespace pointwright::finder

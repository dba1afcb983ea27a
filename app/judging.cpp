#include "app/judging.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <thread>
#include <utility>

#include "app/numbers.hpp"
#include "app/options.hpp"
#include "chance/match_table.hpp"
#include "judge/parallel_search.hpp"
#include "judge/position_valuation.hpp"
#include "judge/shipped.hpp"
#include "rules/score.hpp"
#include "table_store/parallel_host.hpp"

namespace pointwright::app {

std::optional<Failure> unfit(const Position& position, const GivenLine& given) {
  const auto about = [&](std::string_view id, std::string reason, std::string fix) {
    return Failure{.text = given.text,
                   .origin = given.origin,
                   .line = given.line,
                   .faults = {{.id = id,
                               .where = {.begin = 0, .end = given.text.size()},
                               .reason = std::move(reason),
                               .fix = std::move(fix)}}};
  };
  if (winner_of(position.board))
    return about("game-over", "the game is over: a side has borne off all its checkers",
                 "give a position in which both sides have checkers left");
  if (judge::valuation_of(position, *position.turn)) return std::nullopt;
  if (position.match && match_over(*position.match))
    return about("match-over", "the match is over: a side has reached its length",
                 "give a score below the length of the match");
  return about("match-too-long",
               fmt::format("the match table ends where a side needs {} points",
                           chance::standard_match_table().size()),
               "give a shorter match, or leave it out to ask about a game for points");
}

unsigned threads_by_default() {
  return std::max(1U, std::thread::hardware_concurrency());
}

Result<unsigned, Failure> threads_of(const std::optional<std::string>& word) {
  constexpr std::uint64_t most_threads = 256;
  const auto threads = number_of(word, "--threads", threads_by_default(), 1, most_threads);
  if (!threads.ok()) return threads.error();
  return static_cast<unsigned>(*threads);
}

std::unique_ptr<judge::Search> make_search(int depth, unsigned threads) {
  // Only two rolls ahead meet positions again; making a large memory would take longer than the
  // rest.
  if (depth < 2)
    return std::make_unique<judge::Search>(judge::shipped_evaluator(),
                                           judge::SearchOptions{.cache_bits = 8});
  return std::make_unique<judge::ParallelSearch>(judge::shipped_evaluator(), parallel_host(threads),
                                                 threads);
}

std::string_view known_word(judge::Origin origin) {
  switch (origin) {
    case judge::Origin::game_over:
    case judge::Origin::exact_table:
      return known_exact;
    case judge::Origin::table:
      return known_combined;
    case judge::Origin::race_net:
    case judge::Origin::contact_net:
      break;
  }
  return known_searched;
}

}  // namespace pointwright::app

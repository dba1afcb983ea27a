#include "app/judging.hpp"

#include <fmt/format.h>

#include <utility>

#include "app/numbers.hpp"
#include "chance/match_table.hpp"
#include "judge/position_valuation.hpp"
#include "rules/score.hpp"

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

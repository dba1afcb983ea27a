#include "chance/next_roll.hpp"

#include <algorithm>
#include <numeric>

namespace pointwright::chance {

NextRoll::NextRoll(const Board& board, Side side) : board_(board), side_(side) {
  rolls_.reserve(all_rolls().size());
  for (const Roll roll : all_rolls()) rolls_.push_back({roll, legal_plays(board, side, roll)});
}

bool NextRoll::answers(const Query& query, const OfRoll& roll) const {
  const auto went_so = [&](const Play& play, const Board& after) {
    return query.event.holds({board_, side_, play, after, static_cast<int>(roll.plays.size())});
  };
  if (roll.plays.empty()) {
    const bool holds = went_so(Play{}, board_);
    return query.mode == Query::Mode::cannot ? !holds : holds;
  }
  const auto of_play = [&](const LegalPlay& legal) { return went_so(legal.play, legal.after); };
  switch (query.mode) {
    case Query::Mode::can:
      return std::any_of(roll.plays.begin(), roll.plays.end(), of_play);
    case Query::Mode::must:
      return std::all_of(roll.plays.begin(), roll.plays.end(), of_play);
    case Query::Mode::cannot:
      return std::none_of(roll.plays.begin(), roll.plays.end(), of_play);
  }
  return false;
}

Count count(const NextRoll& next, const Query& query) {
  Count result;
  for (const NextRoll::OfRoll& roll : next.rolls()) {
    if (!next.answers(query, roll)) continue;
    result.rolls.push_back(roll.roll);
    result.ways += roll.roll.ways();
    const auto high = static_cast<std::size_t>(roll.roll.high() - 1);
    const auto low = static_cast<std::size_t>(roll.roll.low() - 1);
    result.grid[high][low] = result.grid[low][high] = true;
  }
  return result;
}

std::string fraction_of_36(int ways) {
  const int divisor = std::gcd(ways, 36);
  const int below = 36 / divisor;
  return std::to_string(ways / divisor) + (below == 1 ? "" : "/" + std::to_string(below));
}

std::vector<CardLine> card(const NextRoll& next) {
  std::vector<Query> queries;
  const auto ask = [&](std::string_view name, int argument = 0) {
    for (const EventKind& kind : event_kinds()) {
      if (kind.name == name) queries.push_back({Query::Mode::can, Event::simple(kind, argument)});
    }
  };
  const Camp& camp = next.board().of(next.side());
  const Camp& theirs = next.board().of(opponent(next.side()));
  const auto own_blots = std::count(camp.begin() + 1, camp.begin() + bar_place, 1);
  std::vector<Place> their_blots;
  for (Place point = 24; point >= 1; --point) {
    if (theirs[mirrored(point)] == 1) their_blots.push_back(point);
  }

  if (!their_blots.empty()) ask("hit");
  if (their_blots.size() > 1) {
    for (const Place point : their_blots) ask("hit", point);
    ask("hit-two");
  }
  if (camp[bar_place] > 0) ask("enter");
  if (camp[bar_place] > 1) ask("enter-all");
  ask("dance");
  ask("forced");
  for (Place point = last_home_point; point >= 1; --point) {
    if (camp[point] < 2 && theirs[mirrored(point)] < 2) ask("point", point);
  }
  if (camp[bar_place] + camp[24] + camp[23] + camp[22] + camp[21] + camp[20] + camp[19] > 1)
    ask("anchor");
  if (own_blots > 0) {
    for (Place point = 24; point >= 1; --point) {
      if (camp[point] == 1) ask("cover", point);
    }
  }
  if (rearmost(next.board(), next.side()) <= 12) {
    ask("off");
    ask("off", 2);
    if (camp[off_place] >= checkers_per_side - 4) ask("off-all");
  }
  if (has_contact(next.board())) {
    ask("safe");
    ask("no-direct-shot");
  }

  std::vector<CardLine> lines;
  lines.reserve(queries.size());
  for (Query& query : queries) {
    Count counted = count(next, query);
    lines.push_back({std::move(query), std::move(counted)});
  }
  return lines;
}

}  // namespace pointwright::chance

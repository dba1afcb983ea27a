#include "tests/reference/positions.hpp"

#include <vector>

#include "rules/play.hpp"

namespace pointwright::reference {
namespace {

/// Puts `number` checkers of a side on the board one by one, on places from `lowest` to `highest`
/// as it counts, never on a point that the other side holds; the rest of the fifteen are off.
void throw_on(Random& random, Board& board, Side side, int number, int lowest, int highest) {
  Camp& camp = board.of(side);
  camp = Camp{};
  const Camp& others = board.of(opponent(side));
  int placed = 0;
  for (int tries = 0; placed < number && tries < 400; ++tries) {
    const int chosen = lowest + random_below(random, highest - lowest + 1);
    const auto place = static_cast<std::size_t>(chosen);
    if (place != bar_place && others.at(25 - place) > 0) continue;
    ++camp.at(place);
    ++placed;
  }
  if (placed == 0) {  // every point of the stretch is taken: somewhere a checker must stand
    ++camp.at(bar_place);
    ++placed;
  }
  camp.at(off_place) = static_cast<std::uint8_t>(checkers_per_side - placed);
}

/// Closes each home point of a side with the given chance out of ten, two or three checkers each.
void close_home(Random& random, Board& board, Side side, int chance) {
  Camp& camp = board.of(side);
  camp = Camp{};
  int left = checkers_per_side;
  for (std::size_t point = 1; point <= last_home_point; ++point) {
    if (random_below(random, 10) >= chance || left < 3) continue;
    const int checkers = 2 + random_below(random, 2);
    camp.at(point) = static_cast<std::uint8_t>(checkers);
    left -= checkers;
  }
  for (; left > 0; --left) {  // the rest anywhere, or off
    ++camp.at(static_cast<std::size_t>(random_below(random, 25)));
  }
  if (camp.at(off_place) == checkers_per_side) {
    --camp.at(off_place);
    ++camp.at(1);
  }
}

Board scattered(Random& random) {
  Board board;
  throw_on(random, board, Side::light, 1 + random_below(random, 15), 1, 25);
  throw_on(random, board, Side::dark, 1 + random_below(random, 15), 1, 25);
  return board;
}

Board sparse(Random& random) {
  Board board;
  const int reach = 6 + random_below(random, 20);
  throw_on(random, board, Side::light, 1 + random_below(random, 4), 1, reach);
  throw_on(random, board, Side::dark, 1 + random_below(random, 4), 1, 25);
  return board;
}

Board on_the_bar(Random& random, Side mover) {
  Board board;
  close_home(random, board, opponent(mover), 3 + random_below(random, 7));
  throw_on(random, board, mover, 1 + random_below(random, 15), 1, 25);
  Camp& camp = board.of(mover);
  int to_move = random_below(random, 4);
  for (std::size_t point = 1; point <= 24; ++point) {
    for (; camp.at(point) > 0 && to_move > 0; --to_move) {
      --camp.at(point);
      ++camp.at(bar_place);
    }
  }
  return board;
}

Board bear_off(Random& random, Side mover) {
  Board board;
  const int highest = random_below(random, 4) == 0 ? 8 : 6;
  throw_on(random, board, mover, 1 + random_below(random, 15), 1, highest);
  const bool in_the_way = random_below(random, 2) == 0;
  throw_on(random, board, opponent(mover), 1 + random_below(random, 15), 1, in_the_way ? 25 : 16);
  return board;
}

}  // namespace

int random_below(Random& random, int below) {
  return static_cast<int>(random() % static_cast<std::uint64_t>(below));
}

Roll random_roll(Random& random) {
  const int first = 1 + random_below(random, 6);
  return {first, 1 + random_below(random, 6)};
}

std::string_view name(Kind kind) {
  switch (kind) {
    case Kind::game:
      return "game";
    case Kind::scattered:
      return "scattered";
    case Kind::sparse:
      return "sparse";
    case Kind::on_the_bar:
      return "on the bar";
    case Kind::bear_off:
      return "bear-off";
  }
  return "";
}

Trial Trials::next(Kind kind) {
  if (kind == Kind::game) return next_of_game();
  Trial trial;
  trial.side = random_below(random_, 2) == 0 ? Side::light : Side::dark;
  trial.roll = random_roll(random_);
  switch (kind) {
    case Kind::sparse:
      trial.board = sparse(random_);
      break;
    case Kind::on_the_bar:
      trial.board = on_the_bar(random_, trial.side);
      break;
    case Kind::bear_off:
      trial.board = bear_off(random_, trial.side);
      break;
    default:
      trial.board = scattered(random_);
  }
  return trial;
}

/// Plays a random legal play of the last trial and throws for the other side.
Trial Trials::next_of_game() {
  if (in_game_) {
    const std::vector<LegalPlay> plays = legal_plays(game_.board, game_.side, game_.roll);
    if (!plays.empty()) {
      const int chosen = random_below(random_, static_cast<int>(plays.size()));
      game_.board = plays[static_cast<std::size_t>(chosen)].after;
    }
    in_game_ = !has_won(game_.board, game_.side);
    game_.side = opponent(game_.side);
  }
  if (!in_game_) {
    game_.board = starting_board();
    in_game_ = true;
  }
  game_.roll = random_roll(random_);
  return game_;
}

}  // namespace pointwright::reference

#include "rules/board.hpp"

#include <algorithm>

namespace pointwright {
namespace {

/// The finaliser of SplitMix64 (G. L. Steele, D. Lea, C. H. Flood, "Fast splittable pseudorandom
/// number generators", OOPSLA 2014): every input bit reaches every output bit.
constexpr std::uint64_t mix(std::uint64_t x) {
  x += 0x9e3779b97f4a7c15U;
  x = (x ^ (x >> 30U)) * 0xbf58476d1ce4e5b9U;
  x = (x ^ (x >> 27U)) * 0x94d049bb133111ebU;
  return x ^ (x >> 31U);
}

}  // namespace

Board starting_board() {
  Board board;
  for (Camp& camp : board.camps) {
    camp[24] = 2;
    camp[13] = 5;
    camp[8] = 3;
    camp[6] = 5;
  }
  return board;
}

int pip_count(const Board& board, Side side) {
  int pips = 0;
  for (int place = 1; place <= bar_place; ++place)
    pips += place * board.of(side)[static_cast<std::size_t>(place)];
  return pips;
}

Place rearmost(const Board& board, Side side) {
  Place place = bar_place;
  while (place > off_place && board.of(side)[place] == 0) --place;
  return place;
}

bool has_contact(const Board& board) {
  // A rear checker on a and one of the other side on b (each in its own numbering) have passed each
  // other when a + b < 25: then a stands at a lower point of the same board than 25 - b.
  const Place light = rearmost(board, Side::light);
  const Place dark = rearmost(board, Side::dark);
  return light != off_place && dark != off_place && light + dark > bar_place;
}

bool all_home(const Board& board, Side side) {
  return rearmost(board, side) <= last_home_point;
}

bool has_won(const Board& board, Side side) {
  return board.of(side)[off_place] == checkers_per_side;
}

Board swapped(const Board& board) {
  return Board{{board.camps[1], board.camps[0]}};
}

std::uint64_t hash(const Board& board) {
  std::uint64_t state = 0;
  for (const Camp& camp : board.camps) {
    for (const std::uint8_t count : camp) state = mix(state ^ count);
  }
  return state;
}

}  // namespace pointwright

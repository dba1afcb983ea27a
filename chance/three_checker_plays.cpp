#include "chance/three_checker_plays.hpp"

#include <algorithm>
#include <bit>
#include <cstring>

namespace pointwright {

std::uint32_t ThreeCheckers::rank(const Camp& camp) const {
  // Eight places at a time, of which most are empty; little-endian, as the table files are.
  std::array<std::uint64_t, 4> words{};
  std::memcpy(words.data(), camp.data(), camp.size());
  words[0] &= ~std::uint64_t{0xFF};  // off
  Places found{};
  std::size_t count = 0;
  for (std::size_t i = 0; i < words.size(); ++i) {
    for (std::uint64_t word = words[i]; word != 0 && count < found.size();) {
      const auto byte = static_cast<std::size_t>(std::countr_zero(word)) / 8;
      found[count++] = static_cast<std::uint8_t>(8 * i + byte);
      word -= std::uint64_t{1} << (8 * byte);
    }
  }
  return rank(found);
}

ThreeCheckers::ThreeCheckers(int most)
    : family_(bar_place, most),
      places_(size()),
      own_points_(size()),
      occupied_(size()),
      blot_bits_(size()),
      after_hits_(size()),
      block_(size()),
      rank_of_places_(std::size_t{26} * 26 * 26) {
  for (std::uint32_t rank = 0; rank < size(); ++rank) {
    const Camp camp = family_.camp(rank);
    Places& places = places_[rank];
    std::size_t found = 0;
    for (std::size_t place = bar_place; place >= 1; --place) {
      for (int i = 0; i < camp[place]; ++i) places[found++] = static_cast<std::uint8_t>(place);
      if (camp[place] == 0 || place == bar_place) continue;
      const int theirs = mirrored(static_cast<Place>(place));
      own_points_[rank] |= point_bit(static_cast<int>(place));
      occupied_[rank] |= point_bit(theirs);
      if (camp[place] > 1) block_[rank] = static_cast<std::uint8_t>(theirs);
    }
    Places order = places;
    std::sort(order.begin(), order.end());
    do {
      rank_of_places_[(std::size_t{order[0]} * 26 + order[1]) * 26 + order[2]] =
          static_cast<std::uint16_t>(rank);
    } while (std::next_permutation(order.begin(), order.end()));
  }
  constexpr std::uint8_t no_stop = 31;
  for (std::uint32_t rank = 0; rank < size(); ++rank) {
    for (std::size_t i = 0; i < 3; ++i) {
      const int place = places_[rank][i];
      const bool on_point = place != off_place && place != bar_place;
      const int theirs = on_point ? mirrored(static_cast<Place>(place)) : 0;
      const bool blot = on_point && theirs != block_[rank];
      blot_bits_[rank][i] = blot ? static_cast<std::uint8_t>(theirs) : no_stop;
    }
    for (std::size_t hits = 0; hits < 8; ++hits) {
      Places places = places_[rank];
      for (std::size_t i = 0; i < 3; ++i) {
        if (((hits >> i) & 1U) != 0 && blot_bits_[rank][i] != no_stop) places[i] = bar_place;
      }
      after_hits_[rank][hits] = this->rank(places);
    }
  }
  find_runs();
}

void ThreeCheckers::find_runs() {
  const auto nearest = static_cast<std::size_t>(most() - 1);
  for (std::uint32_t rank = 0; rank < size(); ++rank) {
    const Places& places = places_[rank];
    if (places[nearest] != off_place) {
      Run& run = runs_.back();
      ++run.size;
      if (block_[rank] != 0 && run.block == 0) {
        single_blocks_[block_[rank]].push_back(static_cast<std::uint16_t>(rank));
      }
      // On the place of another checker it would be no blot; such sides are taken one by one.
      const bool alone = nearest == 0 || places[nearest] != places[nearest - 1];
      if (alone && places[nearest] != bar_place) {
        run.nearest |= point_bit(mirrored(places[nearest]));
      }
      continue;
    }
    Run run;
    run.first = rank;
    run.size = 1;
    run.others = blot_bits_[rank];
    run.block = block_[rank];
    for (std::size_t hits = 0; hits < run.after_hits.size(); ++hits) {
      run.after_hits[hits] = after_hits_[rank][hits];
    }
    runs_.push_back(run);
  }
}

/// Where a checker comes down with a die, or -1 if it may not move.
int ThreeCheckerPlays::landing_of(const ThreeCheckers::Places& places, std::size_t checker,
                                  int die) const {
  const int from = places[checker];
  const int farthest = std::max({places[0], places[1], places[2]});
  if (from == off_place || (farthest == bar_place && from != bar_place)) return -1;
  if (from > die) return from - die == block_ ? -1 : from - die;
  if (farthest > last_home_point || (from < die && from != farthest)) return -1;
  return off_place;
}

/// Plays the dice in their order from `used` on, as far as they go, and keeps the longest plays.
void ThreeCheckerPlays::extend(const ThreeCheckers::Places& places, const std::array<int, 4>& dice,
                               int used, int count, PointSet stops) {
  bool moved = false;
  for (std::size_t checker = 0; used < count && checker < places.size(); ++checker) {
    // Checkers on one place move alike.
    if (checker > 0 && places[checker] == places[checker - 1]) continue;
    const int to = landing_of(places, checker, dice[static_cast<std::size_t>(used)]);
    if (to < 0) continue;
    moved = true;
    ThreeCheckers::Places next = places;
    next[checker] = static_cast<std::uint8_t>(to);
    extend(next, dice, used + 1, count, to == off_place ? stops : stops | point_bit(to));
  }
  if (moved || used < longest_) return;
  if (used > longest_) {
    found_.clear();
    longest_ = used;
  }
  found_.push_back({index_.rank(places), stops});
}

const std::vector<Landing>& ThreeCheckerPlays::find_roll(std::uint32_t rank, int block,
                                                         std::size_t roll_index) {
  block_ = block;
  const ThreeCheckers::Places& places = index_.places(rank);
  const Roll roll = all_rolls()[roll_index];
  longest_ = 0;
  found_.clear();
  const int high = roll.high();
  const int low = roll.low();
  if (roll.is_double()) {
    extend(places, {high, high, high, high}, 0, 4, 0);
  } else {
    // When only one die can be played it is the larger if possible: plays of one die that start
    // with the larger one therefore come first, and others count only if they use both dice.
    extend(places, {high, low}, 0, 2, 0);
    if (longest_ == 1) {
      const std::vector<Landing> larger = found_;
      extend(places, {low, high}, 0, 2, 0);
      if (longest_ == 1) found_ = larger;
    } else {
      extend(places, {low, high}, 0, 2, 0);
    }
  }
  std::sort(found_.begin(), found_.end());
  found_.erase(std::unique(found_.begin(), found_.end()), found_.end());
  lists_[roll_index] = found_;
  return lists_[roll_index];
}

void ThreeCheckerPlays::find(std::uint32_t rank, int block) {
  for (std::size_t roll = 0; roll < 21; ++roll) find_roll(rank, block, roll);
}

}  // namespace pointwright

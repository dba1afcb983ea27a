#include "judge/phase.hpp"

#include <bit>

#include "judge/sight.hpp"

namespace pointwright::judge {
namespace {

constexpr Places up_to(int place) {
  return bit(place + 1) - 1;
}
constexpr Places own_half = up_to(12);
constexpr Places their_home = points_mask & ~up_to(far_home);

/// Whether a side holds four points in a row, of which the first lies one to three points before an
/// opposing checker, so that all four lie within the six points before it.
bool primes(const Spread& mine, const Spread& theirs) {
  const Places held = mine.two & points_mask;
  const Places runs = held & (held >> 1U) & (held >> 2U) & (held >> 3U);
  if (runs == 0) return false;
  const Places behind = mirrored(theirs.any);  // bit 0: their bar
  return (runs & ((behind << 1U) | (behind << 2U) | (behind << 3U))) != 0;
}

/// As has_contact() of rules/, from what is at hand: this is asked at every evaluation.
bool meet(const Spread& mine, const Spread& theirs) {
  const auto rear = [](const Spread& side) {
    return static_cast<int>(std::bit_width(side.any)) - 1;
  };
  return mine.any != 0 && theirs.any != 0 && rear(mine) + rear(theirs) > bar_place;
}

bool holds_two_anchors(const Spread& mine) {
  return std::popcount(mine.two & their_home) >= 2;
}

}  // namespace

std::string_view name(Phase phase) {
  constexpr std::array<std::string_view, all_phases.size()> names{"open", "blockade", "bear-in",
                                                                  "race"};
  return names[static_cast<std::size_t>(phase)];
}

Phase phase_of(const Board& board) {
  const Spread light = spread_of(board.of(Side::light));
  const Spread dark = spread_of(board.of(Side::dark));
  if (!meet(light, dark)) return Phase::race;
  if ((light.any & ~own_half) == 0 || (dark.any & ~own_half) == 0) return Phase::bear_in;
  if (holds_two_anchors(light) || holds_two_anchors(dark) || primes(light, dark) ||
      primes(dark, light))
    return Phase::blockade;
  return Phase::open;
}

}  // namespace pointwright::judge

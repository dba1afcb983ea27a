#include "chance/two_sided.hpp"

#include <algorithm>
#include <array>

#include "chance/bearoff_plays.hpp"
#include "rules/roll.hpp"

namespace pointwright {
namespace {

/// What an entry of the side on roll means to the side that has just played: the chance and the
/// equities turn over, and a cube that is "theirs" to the one is "mine" to the other.
template <class Real>
TwoSidedEntry<Real> turned_over(const TwoSidedEntry<Real>& entry) {
  const Real offered = std::min(Real{1}, 2 * entry.theirs);
  return {1 - entry.win, -std::max(entry.hold_centred, offered), -entry.theirs,
          -std::max(entry.hold_mine, offered)};
}

template <class Real>
void raise(TwoSidedEntry<Real>& best, const TwoSidedEntry<Real>& other) {
  best.win = std::max(best.win, other.win);
  best.hold_centred = std::max(best.hold_centred, other.hold_centred);
  best.hold_mine = std::max(best.hold_mine, other.hold_mine);
  best.theirs = std::max(best.theirs, other.theirs);
}

template <class Real>
void add(TwoSidedEntry<Real>& sum, const TwoSidedEntry<Real>& best, Real weight) {
  sum.win += weight * best.win;
  sum.hold_centred += weight * best.hold_centred;
  sum.hold_mine += weight * best.hold_mine;
  sum.theirs += weight * best.theirs;
}

template <class Real>
constexpr TwoSidedEntry<Real> worst{-1, -1, -1, -1};

/// An entry of the side on roll against a side that is already off.
template <class Real>
constexpr TwoSidedEntry<Real> lost{0, -1, -1, -1};

/// Fills the square in growing borders. Step r knows every pair in which one side's rank is under
/// r. It first solves rank r on roll against r and above, whose plays lead to pairs with a rank
/// under r; then everything above r on roll against r, whose plays lead to pairs of the first kind.
/// Each half runs in parallel, with contiguous reads.
template <class Real>
class Square {
 public:
  using Entry = TwoSidedEntry<Real>;

  Square(const BearoffFamily& family, std::span<Entry> entries)
      : plays_(family), size_(family.size()), entries_(entries), turned_row_(size_) {
    for (std::size_t r = 0; r < 21; ++r) {
      weights_[r] = static_cast<Real>(all_rolls()[r].ways()) / 36;
    }
    std::fill_n(entries_.begin(), size_, lost<Real>);
  }

  void step(std::uint32_t rank, const BuildHost& host) {
    at(rank, 0) = lost<Real>;  // a finished side does not roll; the cell only has a value
    for (std::uint32_t other = 0; other < rank; ++other) {
      turned_row_[other] = turned_over(at(other, rank));
    }
    host.split((size_ - rank + block - 1) / block, [&](std::size_t begin, std::size_t end) {
      for (std::size_t i = begin; i < end; ++i) {
        const std::size_t first = rank + i * block;
        solve_on_roll(rank, first, std::min(first + block, size_));
      }
    });
    host.split(size_ - rank - 1, [&](std::size_t begin, std::size_t end) {
      for (std::size_t i = begin; i < end; ++i) {
        solve_waiting(rank, static_cast<std::uint32_t>(rank + 1 + i));
      }
    });
  }

 private:
  static constexpr std::size_t block = 32;

  Entry& at(std::size_t waiting, std::size_t on_roll) {
    return entries_[waiting * size_ + on_roll];
  }

  /// `rank` on roll against each of [begin, end), all at once.
  void solve_on_roll(std::uint32_t rank, std::size_t begin, std::size_t end) {
    std::array<Entry, block> sum{};
    const std::size_t count = end - begin;
    for (std::size_t roll = 0; roll < 21; ++roll) {
      std::array<Entry, block> best;
      best.fill(worst<Real>);
      for (const std::uint32_t after : plays_.after(rank, roll)) {
        const Entry* replies = &at(after, begin);
        for (std::size_t i = 0; i < count; ++i) raise(best[i], turned_over(replies[i]));
      }
      for (std::size_t i = 0; i < count; ++i) add(sum[i], best[i], weights_[roll]);
    }
    for (std::size_t i = 0; i < count; ++i) {
      at(begin + i, rank) = sum[i];
      turned_row_[begin + i] = turned_over(sum[i]);
    }
  }

  /// `on_roll` against `rank`, whose answers are all known by now.
  void solve_waiting(std::uint32_t rank, std::uint32_t on_roll) {
    Entry sum{};
    for (std::size_t roll = 0; roll < 21; ++roll) {
      Entry best = worst<Real>;
      for (const std::uint32_t after : plays_.after(on_roll, roll)) {
        raise(best, turned_row_[after]);
      }
      add(sum, best, weights_[roll]);
    }
    at(rank, on_roll) = sum;
  }

  BearoffPlays plays_;
  std::size_t size_;
  std::span<Entry> entries_;
  /// What each rank waiting is worth to it while the current rank rolls.
  std::vector<Entry> turned_row_;
  std::array<Real, 21> weights_{};
};

}  // namespace

template <class Real>
bool solve_two_sided(const BearoffFamily& family, std::span<TwoSidedEntry<Real>> entries,
                     const BuildHost& host) {
  if (!host.report(0.0)) return false;
  Square<Real> square(family, entries);
  const double size = family.size();
  for (std::uint32_t rank = 1; rank < family.size(); ++rank) {
    square.step(rank, host);
    const double left = 1 - rank / size;
    if (!host.report(1 - left * left)) return false;
  }
  return true;
}

template bool solve_two_sided(const BearoffFamily&, std::span<TwoSidedEntry<float>>,
                              const BuildHost&);
template bool solve_two_sided(const BearoffFamily&, std::span<TwoSidedEntry<double>>,
                              const BuildHost&);

const TwoSidedTable<double>& small_races() {
  static constexpr int checkers = 6;
  static const std::vector<TwoSidedEntry<double>> entries = [] {
    const BearoffFamily family(last_home_point, checkers);
    std::vector<TwoSidedEntry<double>> made(std::size_t{family.size()} * family.size());
    solve_two_sided(family, std::span(made), {});
    return made;
  }();
  static const TwoSidedTable<double> table(checkers, entries);
  return table;
}

}  // namespace pointwright

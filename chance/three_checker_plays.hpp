#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "chance/bearoff_index.hpp"
#include "rules/roll.hpp"

namespace pointwright {

/// A point of the board as a bit, in the mover's numbering.
using PointSet = std::uint32_t;
constexpr PointSet point_bit(int point) {
  return PointSet{1} << point;
}

/// One side with at most three checkers left: 3,276 = C(28,3) positions, the bar counting as a
/// point. With at most two there are 351, with one 26. Ranks are those of BearoffFamily(25, most).
class ThreeCheckers {
 public:
  using Places = std::array<std::uint8_t, 3>;  ///< farthest first; 0 is off

  /// Precondition: 1 <= most <= 3.
  explicit ThreeCheckers(int most = 3);

  [[nodiscard]] std::uint32_t size() const { return family_.size(); }
  [[nodiscard]] int most() const { return family_.checkers(); }

  /// Precondition: contains(camp). The same as the family's, but quick enough for a look-up.
  [[nodiscard]] std::uint32_t rank(const Camp& camp) const;
  [[nodiscard]] bool contains(const Camp& camp) const { return family_.contains(camp); }
  [[nodiscard]] Camp camp(std::uint32_t rank) const { return family_.camp(rank); }

  [[nodiscard]] const Places& places(std::uint32_t rank) const { return places_[rank]; }
  /// The rank of three places in any order.
  [[nodiscard]] std::uint16_t rank(const Places& p) const {
    return rank_of_places_[(std::size_t{p[0]} * 26 + p[1]) * 26 + p[2]];
  }
  /// The points that a side holds, as the other side counts them; the bar and off are left out.
  [[nodiscard]] PointSet occupied(std::uint32_t rank) const { return occupied_[rank]; }
  /// The one point with two or three checkers, as the other side counts it; 0 if there is none.
  [[nodiscard]] int block(std::uint32_t rank) const { return block_[rank]; }
  /// Where a side's three checkers stand as blots, as bits to shift a set of stops by: a checker
  /// that is no blot gets a bit that no stop has.
  using BlotBits = std::array<std::uint8_t, 3>;
  [[nodiscard]] const BlotBits& blot_bits(std::uint32_t rank) const { return blot_bits_[rank]; }
  /// Which of the three checkers are hit by stops, as a number from 0 to 7. No branch: whether a
  /// given play hits is as good as random to a processor.
  [[nodiscard]] static std::size_t hits(const BlotBits& bits, PointSet stops) {
    return ((stops >> bits[0]) & 1U) | (((stops >> bits[1]) & 1U) << 1) |
           (((stops >> bits[2]) & 1U) << 2);
  }
  /// The rank after those checkers have been sent to the bar.
  [[nodiscard]] std::uint16_t after_hits(std::uint32_t rank, std::size_t hits) const {
    return after_hits_[rank][hits];
  }
  /// Sides that differ only in their nearest checker, which stands on 0 (off) and up to the next
  /// one: they have successive ranks, and so do they after the same hits on their other checkers.
  struct Run {
    std::uint32_t first = 0;
    std::uint32_t size = 0;
    BlotBits others{};                          ///< the blots among the other checkers
    std::array<std::uint16_t, 4> after_hits{};  ///< the first rank after those hits
    PointSet nearest = 0;  ///< where the nearest checker can stand and be a blot, to the other side
    int block = 0;         ///< the point that the other checkers block, or 0
  };
  [[nodiscard]] const std::vector<Run>& runs() const { return runs_; }
  /// Sides that block a point, in no run that does: their nearest two checkers stand together.
  [[nodiscard]] const std::vector<std::uint16_t>& single_blocks(int point) const {
    return single_blocks_[static_cast<std::size_t>(point)];
  }
  /// Which checker of a run is the nearest: a bit of hits().
  [[nodiscard]] std::size_t nearest_bit() const {
    return std::size_t{1} << static_cast<std::size_t>(most() - 1);
  }

  /// Whether two sides can stand on a board together: no point belongs to both.
  [[nodiscard]] bool fit(std::uint32_t one, std::uint32_t other) const {
    return (own_points_[one] & occupied_[other]) == 0;
  }

 private:
  BearoffFamily family_;
  std::vector<Places> places_;
  std::vector<PointSet> own_points_;
  std::vector<PointSet> occupied_;
  std::vector<BlotBits> blot_bits_;
  std::vector<std::array<std::uint16_t, 8>> after_hits_;
  std::vector<std::uint8_t> block_;
  std::vector<std::uint16_t> rank_of_places_;
  std::vector<Run> runs_;
  std::array<std::vector<std::uint16_t>, 25> single_blocks_;

  void find_runs();
};

/// Where a play leads: the mover's rank and every point on which a checker came down. What it hits
/// depends on where the other side's blots are, so one list serves all of their positions that
/// block the same point.
struct Landing {
  std::uint16_t after = 0;
  PointSet stops = 0;
  friend auto operator<=>(const Landing&, const Landing&) = default;
};

/// The landings of each roll, as counted in all_rolls(), without repetition. A roll without a legal
/// move has one landing, that of staying.
using LandingLists = std::array<std::vector<Landing>, 21>;

/// Lists the legal plays of all 21 rolls for a side with at most three checkers left.
class ThreeCheckerPlays {
 public:
  explicit ThreeCheckerPlays(const ThreeCheckers& index) : index_(index) {}

  /// Finds the plays of `rank` when the other side holds `block` (the mover's numbering, 0 for no
  /// point) and has no other point of two. Precondition: rank is not 0.
  void find(std::uint32_t rank, int block);
  /// Finds and returns those of one roll, as counted in all_rolls().
  const std::vector<Landing>& find_roll(std::uint32_t rank, int block, std::size_t roll_index);

  [[nodiscard]] const LandingLists& lists() const { return lists_; }

 private:
  void extend(const ThreeCheckers::Places& places, const std::array<int, 4>& dice, int used,
              int count, PointSet stops);
  [[nodiscard]] int landing_of(const ThreeCheckers::Places& places, std::size_t checker,
                               int die) const;

  const ThreeCheckers& index_;
  int block_ = 0;
  LandingLists lists_;
  int longest_ = 0;             ///< most dice that a play of the current sequence uses
  std::vector<Landing> found_;  ///< the plays that use so many
};

}  // namespace pointwright

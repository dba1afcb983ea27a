#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <ranges>
#include <span>
#include <vector>

#include "chance/three_checker_plays.hpp"

namespace pointwright {

/// The landings of all rolls in one row: those of roll r, as counted in all_rolls(), stand from
/// begins[r] up to begins[r + 1].
struct PlayList {
  std::vector<Landing> landings;
  std::array<std::uint16_t, 22> begins{};

  [[nodiscard]] std::span<const Landing> of(std::size_t roll) const {
    return {landings.data() + begins[roll], landings.data() + begins[roll + 1]};
  }
};

/// The plays of every side against a side that blocks no point, which four in five do not. Plays
/// against a block are found from them.
class FreePlays {
 public:
  explicit FreePlays(const ThreeCheckers& index) : lists_(index.size()) {
    ThreeCheckerPlays plays(index);
    for (std::uint32_t rank = 1; rank < index.size(); ++rank) {
      plays.find(rank, 0);
      PlayList& list = lists_[rank];
      for (std::size_t roll = 0; roll < plays.lists().size(); ++roll) {
        const auto& found = plays.lists()[roll];
        list.landings.insert(list.landings.end(), found.begin(), found.end());
        list.begins[roll + 1] = static_cast<std::uint16_t>(list.landings.size());
      }
      list.landings.shrink_to_fit();
    }
  }
  [[nodiscard]] const PlayList& of(std::uint32_t rank) const { return lists_[rank]; }

 private:
  std::vector<PlayList> lists_;
};

/// The groups of waiting sides for which the candidates of a side on roll are kept: two runs, or
/// the sides whose nearest two checkers, and no others, block a point.
class WaitingGroups {
 public:
  explicit WaitingGroups(const ThreeCheckers& index) : runs_(index.runs().size()) {}

  [[nodiscard]] std::size_t count() const { return run_groups() + last_point; }
  [[nodiscard]] std::size_t run_groups() const { return (runs_ + 1) / 2; }
  [[nodiscard]] static std::size_t of_run(std::size_t run) { return run / 2; }
  [[nodiscard]] std::size_t of_block(int point) const {
    return run_groups() + static_cast<std::size_t>(point) - 1;
  }
  /// The numbers of the runs in a group; none if it is a group by its block.
  [[nodiscard]] auto runs_of(std::size_t group) const {
    return std::views::iota(std::min(2 * group, runs_), std::min(2 * group + 2, runs_));
  }

 private:
  static constexpr std::size_t last_point = 24;
  std::size_t runs_;
};

/// Which free plays of each side on roll may still be the best against a group of waiting sides.
/// All of them at first; a play whose upper bound falls below the lower bound of another is never
/// the best again, for the bounds only close in.
class Candidates {
 public:
  Candidates(const FreePlays& plays, std::uint32_t sides, std::size_t groups) : starts_(sides + 1) {
    for (std::uint32_t side = 0; side < sides; ++side) {
      starts_[side + 1] = starts_[side] + groups * words(plays.of(side));
    }
    bits_.assign(starts_.back(), ~std::uint32_t{0});
  }
  [[nodiscard]] std::span<std::uint32_t> of(const PlayList& list, std::uint32_t side,
                                            std::size_t group) {
    return {bits_.data() + starts_[side] + group * words(list), words(list)};
  }

 private:
  static std::size_t words(const PlayList& list) { return (list.landings.size() + 31) / 32; }
  std::vector<std::size_t> starts_;
  std::vector<std::uint32_t> bits_;
};

/// The plays that are tried for one side on roll against one group: the candidates among its free
/// plays that do not stop on the point which the group blocks. A roll of which none is left cannot
/// be played in full; its plays are found anew and have no bit.
class Selection {
 public:
  explicit Selection(const ThreeCheckers& index) : plays_(index) {}

  /// Selects the plays of `side`, whose free plays are `free`. `block` is the point that the group
  /// blocks, as the side on roll counts it, or 0.
  void select(const PlayList& free, std::uint32_t side, std::span<const std::uint32_t> candidates,
              int block) {
    list_.landings.clear();
    bits_.clear();
    const PointSet blocked = block == 0 ? 0 : point_bit(block);
    for (std::size_t roll = 0; roll + 1 < free.begins.size(); ++roll) {
      const std::size_t before = list_.landings.size();
      for (std::uint16_t at = free.begins[roll]; at < free.begins[roll + 1]; ++at) {
        const Landing& landing = free.landings[at];
        if ((landing.stops & blocked) != 0) continue;
        if (((candidates[at / 32] >> (at % 32)) & 1U) == 0) continue;
        list_.landings.push_back(landing);
        bits_.push_back(at);
      }
      if (list_.landings.size() == before) {
        for (const Landing& landing : plays_.find_roll(side, block, roll)) {
          list_.landings.push_back(landing);
          bits_.push_back(no_bit);
        }
      }
      list_.begins[roll + 1] = static_cast<std::uint16_t>(list_.landings.size());
    }
    useful_.assign(list_.landings.size(), 0);
  }
  [[nodiscard]] const PlayList& list() const { return list_; }

  /// For each play of list(), whether a comparison found that it may be the best.
  [[nodiscard]] std::vector<std::uint8_t>& useful() { return useful_; }

  /// Sets the bits of the useful plays.
  void mark_useful(std::span<std::uint32_t> bits) const {
    for (std::size_t i = 0; i < bits_.size(); ++i) {
      if (useful_[i] != 0 && bits_[i] != no_bit) {
        bits[bits_[i] / 32] |= std::uint32_t{1} << (bits_[i] % 32);
      }
    }
  }

 private:
  static constexpr std::uint16_t no_bit = 0xFFFF;
  ThreeCheckerPlays plays_;
  PlayList list_;
  std::vector<std::uint16_t> bits_;  ///< where each play of list_ stands among the free plays
  std::vector<std::uint8_t> useful_;
};

}  // namespace pointwright

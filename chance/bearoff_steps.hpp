#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

#include "chance/bearoff_index.hpp"

namespace pointwright {

/// The positions that one die leads to, for a side alone with nothing in its way. A die can always
/// be played while a checker is left, and either die may be played first, so a whole roll is two
/// such steps in either order, or four of one number: no rule of play forbids any of them.
class BearoffSteps {
 public:
  /// Ranks after one die, farther checkers first.
  struct Ranks {
    std::array<std::uint32_t, BearoffFamily::most_points> of{};
    std::size_t size = 0;
    [[nodiscard]] const std::uint32_t* begin() const { return of.data(); }
    [[nodiscard]] const std::uint32_t* end() const { return of.data() + size; }
  };

  /// Finds the steps of every die. With no checker left the only step is to stay at rank 0.
  BearoffSteps(const BearoffFamily& family, std::uint32_t rank)
      : BearoffSteps(family, rank, family.camp(rank)) {}
  BearoffSteps(const BearoffFamily& family, std::uint32_t rank, Camp camp);

  /// Precondition: 1 <= die <= 6.
  [[nodiscard]] const Ranks& of(int die) const& { return steps_[static_cast<std::size_t>(die)]; }
  const Ranks& of(int die) const&& = delete;  // they would end with it

 private:
  std::array<Ranks, 7> steps_{};
};

}  // namespace pointwright

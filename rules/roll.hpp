#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <utility>

namespace pointwright {

/// Two dice, written larger die first: 6-4.
class Roll {
 public:
  /// Orders the dice. Precondition: both are 1 to 6.
  constexpr Roll(int a, int b)
      : high_(static_cast<std::uint8_t>(a > b ? a : b)),
        low_(static_cast<std::uint8_t>(a > b ? b : a)) {}

  [[nodiscard]] constexpr int high() const { return high_; }
  [[nodiscard]] constexpr int low() const { return low_; }
  [[nodiscard]] constexpr bool is_double() const { return high_ == low_; }
  /// How many of the 36 ordered throws show this roll: 1 for a double, else 2.
  [[nodiscard]] constexpr int ways() const { return is_double() ? 1 : 2; }
  /// Pips shown, doubles counted four times.
  [[nodiscard]] constexpr int pips() const { return is_double() ? 4 * high_ : high_ + low_; }

  friend constexpr bool operator==(const Roll&, const Roll&) = default;

 private:
  std::uint8_t high_;
  std::uint8_t low_;
};

/// The roll as text: "6-4".
std::string to_text(Roll roll);

/// The 21 distinct rolls: 1-1, 2-1, 2-2, 3-1 ... 6-6.
const std::array<Roll, 21>& all_rolls();

}  // namespace pointwright

#pragma once

#include <cmath>
#include <cstdint>
#include <numbers>

namespace pointwright::judge {

/// A stream of random numbers that is the same on every machine: splitmix64 (Steele, Lea and Flood,
/// "Fast Splittable Pseudorandom Number Generators", OOPSLA 2014, figure 17; constants from
/// memory).
class RandomStream {
 public:
  explicit RandomStream(std::uint64_t seed) : state_(seed) {}

  std::uint64_t next() {
    state_ += 0x9E3779B97F4A7C15U;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
    return z ^ (z >> 31U);
  }

  /// 0 to n - 1. The 64 bits make the unevenness of the remainder too small to see.
  int below(int n) { return static_cast<int>(next() % static_cast<std::uint64_t>(n)); }

  /// Above 0 and at most 1.
  double fraction() { return static_cast<double>((next() >> 11U) + 1) * 0x1.0p-53; }

  /// Normally distributed, mean 0 and deviation 1 (Box and Muller, 1958).
  double normal() {
    const double radius = std::sqrt(-2 * std::log(fraction()));
    return radius * std::cos(2 * std::numbers::pi * fraction());
  }

 private:
  std::uint64_t state_;
};

}  // namespace pointwright::judge

#pragma once

#include <bit>
#include <cstdint>

namespace pointwright {

/// A number that hardly any two contents share: 64-bit FNV-1a (G. Fowler, L. C. Noll and K.-P. Vo),
/// byte by byte. Tells honest contents apart; not for keeping out somebody who means harm.
class Fingerprint {
 public:
  constexpr void add_byte(std::uint8_t byte) { value_ = (value_ ^ byte) * 0x100000001B3ULL; }
  /// The eight bytes of a number, lowest first.
  constexpr void add(std::uint64_t number) {
    for (unsigned i = 0; i < 8; ++i) add_byte(static_cast<std::uint8_t>(number >> (8 * i)));
  }
  constexpr void add(float number) { add(std::uint64_t{std::bit_cast<std::uint32_t>(number)}); }
  constexpr void add(double number) { add(std::bit_cast<std::uint64_t>(number)); }

  [[nodiscard]] constexpr std::uint64_t value() const { return value_; }

 private:
  std::uint64_t value_ = 0xCBF29CE484222325ULL;
};

}  // namespace pointwright

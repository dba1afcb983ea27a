#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>

/// Dice that the program throws and that anybody can check afterwards.
///
/// Before the game the program shows the digest of its secret seed, then the players may add words
/// of their own; so neither side can choose the dice. Afterwards the seed is shown, and every throw
/// can be made again from seed and words.
namespace pointwright::web {

using Digest = std::array<std::uint8_t, 32>;

/// SHA-256 of some bytes. Source: NIST, FIPS 180-4, Secure Hash Standard, sections 5 and 6.2.
Digest sha256(std::string_view bytes);

/// A digest in hexadecimal digits, small letters.
std::string hex(const Digest& digest);

/// What is shown before the game: the digest of the seed.
std::string commitment(std::string_view seed);

/// The `number`-th throw, from 0: two dice, light's first where each side throws one. They are the
/// first two bytes below 252 of the digests of "SEED|WORDS|NUMBER|0", "...|1" and so on, each taken
/// modulo 6, plus 1; every face is equally likely.
std::array<int, 2> sealed_throw(std::string_view seed, std::string_view words, int number);

/// The throws of a game, one after the other.
class SealedDice {
 public:
  explicit SealedDice(std::string seed, std::string words = {})
      : seed_(std::move(seed)), words_(std::move(words)) {}

  [[nodiscard]] const std::string& seed() const { return seed_; }
  /// How many throws were made.
  [[nodiscard]] int thrown() const { return thrown_; }
  std::array<int, 2> next() { return sealed_throw(seed_, words_, thrown_++); }
  /// A number for other uses of chance, which tells nothing about the dice: the first eight bytes
  /// of the digest of "SEED:USE".
  [[nodiscard]] std::uint64_t number_for(std::string_view use) const;

 private:
  std::string seed_;
  std::string words_;
  int thrown_ = 0;
};

}  // namespace pointwright::web

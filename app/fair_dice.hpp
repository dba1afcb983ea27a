#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace pointwright::app {

/// Dice that nobody can have chosen: all of them follow from a seed, whose SHA-256 digest is shown
/// before the first throw and which is shown itself after the game, so that both can be compared.
///
/// Block n (from 0) is the SHA-256 digest of "SEED:n"; each of its 32 bytes below 252 gives a die,
/// one more than its remainder by 6, and the others are passed over.
class FairDice {
 public:
  explicit FairDice(std::string seed) : seed_(std::move(seed)) {}

  [[nodiscard]] const std::string& seed() const { return seed_; }
  /// The digest of the seed, in hexadecimal.
  [[nodiscard]] std::string commitment() const;
  /// The next die, 1 to 6.
  int next();
  /// A number for other uses of chance, which tells nothing about the dice.
  [[nodiscard]] std::uint64_t number_for(std::string_view use) const;

 private:
  std::string seed_;
  std::string block_;
  std::size_t at_ = 0;
  std::uint64_t blocks_ = 0;
};

/// A seed from the system's source of chance: 32 hexadecimal digits.
std::string new_seed();

}  // namespace pointwright::app

#pragma once

#include <cstdint>

namespace pointwright::reference {

/// What the generator of legal plays lists on positions of random games, folded into two numbers.
/// Every build on every machine must give the same; a change of the generator that changes them
/// changes which plays are listed, or their order.
struct Signature {
  std::int64_t plays = 0;    ///< how many were listed
  std::uint64_t folded = 0;  ///< the hashes of the boards that they lead to, in order
  friend bool operator==(const Signature&, const Signature&) = default;
};

/// The signature over so many positions of the games that a seed gives.
Signature signature(std::uint64_t seed, int positions);

}  // namespace pointwright::reference

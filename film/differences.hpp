#pragma once

#include <string>
#include <vector>

namespace pointwright::film {

/// A text of an older list and what stands in its place in the newer one.
struct Difference {
  std::string before;  ///< empty: it is new
  std::string after;   ///< empty: it is gone
  friend bool operator==(const Difference&, const Difference&) = default;
};

/// What differs between two lists of texts, in order: the cheapest way to turn one into the other,
/// by dynamic programming over both lists. Texts that share most of their words are taken for
/// versions of one another. Empty texts are passed over. Lists that differ in more than
/// `longest_compared` texts each are paired in order.
std::vector<Difference> differences(std::vector<std::string> before,
                                    std::vector<std::string> after);

inline constexpr std::size_t longest_compared = 2000;

}  // namespace pointwright::film

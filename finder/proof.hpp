#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "finder/search.hpp"

namespace pointwright::finder {

/// A finding as a teacher wants it.
struct Shown {
  Position position;
  std::vector<std::string> claims;     ///< true claims that prove it, as a lesson writes them
  std::vector<std::string> sentences;  ///< the same in words
};

/// What makes the query true of a finding. Precondition: it is true.
Shown show(const Query& query, const Finding& finding, Side side);

/// The finding as blocks ready for a lesson: the board, and the claims below it if there are any.
/// `name` is the board's name: lower case letters, digits and hyphens.
std::string as_blocks(const Shown& shown, std::string_view name);

/// A name for a board made from a query: its first words, such as "must-play-larger".
std::string name_for(const Query& query);

}  // namespace pointwright::finder

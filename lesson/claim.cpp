#include "lesson/claim.hpp"

#include <algorithm>

namespace pointwright::lesson {

const Argument& Ask::argument(std::string_view blank) const {
  return *std::ranges::find_if(arguments_,
                               [&](const Argument& argument) { return argument.blank == blank; });
}

const std::string& Ask::text(std::string_view blank) const {
  return argument(blank).text;
}

}  // namespace pointwright::lesson

#include "app/suggest.hpp"

#include <fmt/format.h>

#include "lesson/suggest.hpp"

namespace pointwright::app {

std::string did_you_mean(std::string_view typed, const std::vector<std::string>& known,
                         std::string fallback) {
  const auto word = lesson::did_you_mean(typed, known);
  return word ? fmt::format("did you mean `{}`?", *word) : std::move(fallback);
}

}  // namespace pointwright::app

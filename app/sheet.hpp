#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "app/json.hpp"
#include "finder/exercise.hpp"

namespace pointwright::app {

/// A set of exercises as an HTML page to print: diagrams and questions, then the answers on a sheet
/// of their own. Fetches nothing.
std::string exercise_sheet(const std::vector<finder::Exercise>& exercises, std::string_view title,
                           const SideNames& names);

/// One exercise for other programs.
Json exercise_object(const finder::Exercise& exercise);

/// The exercise that such an object holds, or nothing if it is damaged.
std::optional<finder::Exercise> exercise_from(const Json& json);

/// The answers to a choice in the order in which they are shown, and which one is right.
struct Answers {
  std::vector<const finder::Choice*> shown;
  std::size_t right = 0;
};
Answers answers_of(const finder::Exercise& exercise, std::size_t number);

}  // namespace pointwright::app

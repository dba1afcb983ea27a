#pragma once

#include <optional>
#include <string>
#include <vector>

#include "lesson/claim.hpp"
#include "lesson/report.hpp"

/// The blanks that forms of claims may have. A new sort of blank is one more entry in blank.cpp.
namespace pointwright::lesson {

/// What is wrong with the words in a blank; becomes a diagnostic if the claim is read this way.
struct BlankFault {
  const DiagnosticKind* kind = nullptr;
  TextSpan where;
  std::string message;
  std::string detail;
  std::string hint;
  std::optional<Fix> fix;
};

/// The blank of that name, or nullptr if the word of a form is meant literally.
const Blank* find_blank(std::string_view name);

/// Reads what stands for a blank into `argument.value`. Returns what is wrong with it.
std::vector<BlankFault> fill(Argument& argument, const SideNames& names);

}  // namespace pointwright::lesson

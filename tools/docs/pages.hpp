#pragma once

#include <string>

/// Pages of docs/ that are made from tables in the code. To add one, write its function in a file
/// of its own and name it in main.cpp.
namespace pointwright::docs {

/// docs/house-rules.md, from `house_rules()` and `house_presets()`.
std::string house_rules_page();

/// docs/rule-book.md: every rule with its example and what the referee says of it.
std::string rule_book_page();

/// docs/command-line.md, from the help of the program.
std::string command_line_page();

}  // namespace pointwright::docs

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

/// docs/events.md, from `chance::event_kinds()`.
std::string events_page();

/// docs/queries.md, from `finder::predicate_kinds()` and `finder::temptations()`.
std::string queries_page();

/// docs/match-table.md: the model behind the computed match table, and how far the table is from a
/// published one.
std::string match_table_page();

}  // namespace pointwright::docs

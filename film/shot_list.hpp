#pragma once

#include <string>
#include <vector>

#include "film/shots.hpp"

/// The shots as a table for other programs.
namespace pointwright::film {

/// A table as CSV (RFC 4180): UTF-8, lines end in CR LF, fields are quoted where they have to be.
/// A field that a spreadsheet would take for a formula gets an apostrophe in front.
std::string to_csv(const std::vector<std::vector<std::string>>& rows);

/// One line for each shot: number, chapter, name, where it begins on the running clock, its length,
/// what is on the table, what the hands do, what is said, what it proves, and where it is written.
std::string shot_list_csv(const std::vector<Shot>& shots);

/// What has to be on the table before a shot, as a position line that other verbs take.
std::string on_the_table(const Shot& shot);

/// "13/8; Walnut rolls 4-3": everything that the hands do, in order; empty when they rest.
std::string hands(const Shot& shot);

/// All the words of a shot, one beat after another.
std::string words(const Shot& shot);

}  // namespace pointwright::film

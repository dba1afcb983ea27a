#pragma once

#include <optional>
#include <string>
#include <vector>

#include "lesson/report.hpp"
#include "rules/ruling.hpp"

/// The YAML of a lesson's front matter and of course.yaml.
namespace pointwright::lesson {

/// The front matter of a lesson file.
struct FrontMatter {
  std::string title;
  std::string summary;
  std::optional<SideNames> sides;
};

/// A chapter that a course lists, and where.
struct ChapterEntry {
  std::string file;
  TextSpan where;
};

/// The file course.yaml.
struct Course {
  std::string title;
  std::string summary;
  std::string author;
  std::string language = "en";
  std::optional<SideNames> sides;
  std::vector<ChapterEntry> chapters;  ///< each a plain name; unsafe ones were reported
};

/// Reads front matter from `where` in the report's source. What is missing or wrong is reported.
FrontMatter read_front_matter(TextSpan where, Report& report);

/// Reads a course from the whole of the report's source.
Course read_course(Report& report);

/// Whether a host may be asked for this name: letters, digits, `-`, `_` and `.`, not beginning with
/// a dot.
bool is_plain_name(std::string_view name);

/// A file's name without its ending: the chapter's id.
std::string chapter_id(std::string_view file);

}  // namespace pointwright::lesson

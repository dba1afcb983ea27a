#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "rules/fault.hpp"
#include "studio/page.hpp"

/// The page of a lesson that is being written: what is wrong with it stands where it is wrong.
namespace pointwright {

/// Something to tell the author.
struct AuthorNote {
  /// Where it stands in the page: behind so many parts of a chapter. Without one it concerns the
  /// course as a whole, or a chapter that is not in the page.
  struct Place {
    std::size_t chapter = 0;
    std::size_t parts = 0;
  };
  std::optional<Place> place;
  bool is_error = true;  ///< else only worth knowing
  std::string where;     ///< "coming-in.md, line 12, column 3"
  std::string message;
  std::vector<std::string> reasons;  ///< what is true instead, and why; what helps
  int line = 0;                      ///< of `text`, from 1; 0 when there is no such line
  std::string text;                  ///< that line of the lesson
  TextSpan marked;                   ///< the bytes of `text` that are concerned
  std::string correction;            ///< that line put right; empty if nothing is proposed
};

/// What a preview adds to a page.
struct Preview {
  std::string version;      ///< letters and digits; another one means another page
  std::string summary;      ///< the state of the lesson in a few words
  std::string_view script;  ///< loads the page again when there is another version
  std::string_view style;
  std::vector<AuthorNote> notes;
};

/// Writes the list of all notes, for the top of the page, to `out`.
void write_note_list(std::string& out, const Preview& preview);

/// Writes the notes that stand behind so many parts of a chapter, or those that have no place.
void write_notes(std::string& out, const Preview& preview, std::optional<AuthorNote::Place> place);

}  // namespace pointwright

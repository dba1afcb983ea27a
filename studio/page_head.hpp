#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "studio/page.hpp"

/// The head of a page and what it carries: style, policy, engine. Each writes HTML to `out`.
namespace pointwright {

/// Names of files that a page refers to instead of carrying them.
struct PageFiles {
  std::string style;
  std::string engine;
  std::string worker;
  std::vector<std::string> scripts;  ///< as in PageHead, then the live one
};

/// What stands in the head of a page.
struct PageHead {
  std::string title;
  std::string author;
  std::string summary;
  std::string language = "en";
  std::string course;   ///< names what a reader's browser keeps; empty: nothing is kept
  std::string preview;  ///< version of a page that looks out for the next one; else empty
  std::string style;
  const PageFiles* files = nullptr;       ///< null: the page carries everything itself
  std::string_view early_script{};        ///< runs before anything is shown; may be empty
  std::string_view chapter_script{};      ///< runs behind each chapter; may be empty
  std::vector<std::string_view> scripts;  ///< that stand in the page, besides the live one
};

/// The themes, the drawings, what every page has, `page` and, if it is live, what that adds.
std::string style_sheet(std::string_view page, const LiveParts* live);

void write_head(std::string& out, const PageHead& head, const LiveParts* live);

/// One of the scripts of the head, where it is to run.
void write_script(std::string& out, const PageHead& head, std::size_t number);

/// The engine and the worker as data, and the live script. Nothing without `live`.
void write_live(std::string& out, const LiveParts* live, const PageFiles* files = nullptr);

}  // namespace pointwright

// Writes the pages of docs/ that are made from the code, or checks that they are up to date.
// usage: pointwright_docs write|check DOCS_FOLDER

#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>
#include <string_view>
#include <system_error>

#include "lesson/claim.hpp"
#include "storyboard/json.hpp"
#include "tools/docs/pages.hpp"

namespace {

namespace fs = std::filesystem;

struct Page {
  std::string_view file;
  std::string (*text)();
};

constexpr Page pages[] = {
    {"events.md", pointwright::docs::events_page},
    {"queries.md", pointwright::docs::queries_page},
    {"house-rules.md", pointwright::docs::house_rules_page},
    {"command-line.md", pointwright::docs::command_line_page},
    {"match-table.md", pointwright::docs::match_table_page},
    {"rule-book.md", pointwright::docs::rule_book_page},
    {"claims.md", pointwright::lesson::claim_reference},
    {"storyboard.schema.json", pointwright::storyboard_schema},
};

bool up_to_date(const fs::path& path, const std::string& text) {
  std::ifstream file(path, std::ios::binary);
  return file && std::string(std::istreambuf_iterator<char>(file), {}) == text;
}

/// Writes beside the file and renames, so that no reader sees half a page.
bool write(const fs::path& path, const std::string& text) {
  fs::path beside = path;
  beside += ".new";
  std::error_code failed;
  {
    std::ofstream file(beside, std::ios::binary);
    file << text;
    if (!file.flush()) failed = std::make_error_code(std::errc::io_error);
  }
  if (!failed) fs::rename(beside, path, failed);
  if (!failed) return true;
  std::cerr << path.string() << ": cannot be written\n";
  std::error_code ignored;
  fs::remove(beside, ignored);
  return false;
}

}  // namespace

int main(int argc, char** argv) {
  const std::string_view mode = argc == 3 ? argv[1] : "";
  if (mode != "write" && mode != "check") {
    std::cerr << "usage: pointwright_docs write|check DOCS_FOLDER\n";
    return 2;
  }
  std::error_code unreadable;
  if (!fs::is_directory(argv[2], unreadable)) {
    std::cerr << argv[2] << ": no such folder\n";
    return 2;
  }
  bool ok = true;
  for (const Page& page : pages) {
    const fs::path path = fs::path(argv[2]) / page.file;
    const std::string text = page.text();
    if (up_to_date(path, text)) continue;
    if (mode == "write") {
      ok = write(path, text) && ok;
    } else {
      ok = false;
      std::cerr << path.string() << ": out of date; run: pointwright_docs write " << argv[2]
                << "\n";
    }
  }
  return ok ? 0 : 1;
}

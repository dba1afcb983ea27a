// Writes the page of the sample course, for the tests in a browser: live, plain, or as the files of
// a site in a folder.
// usage: sample_page FILE [plain] | sample_page FOLDER site
#include <filesystem>
#include <fstream>
#include <string_view>

#include "app/live.hpp"
#include "studio/page.hpp"
#include "studio/site.hpp"
#include "tests/page/sample_course.hpp"

namespace {

bool write(const std::filesystem::path& path, std::string_view contents) {
  std::ofstream file(path, std::ios::binary);
  file << contents;
  return file.flush().good();
}

bool write_site(const std::filesystem::path& folder) {
  const auto site =
      pointwright::site_files(pointwright::sample_course(), pointwright::app::course_parts());
  if (!site) return false;
  std::filesystem::remove_all(folder);
  std::filesystem::create_directories(folder);
  for (const pointwright::SiteFile& file : *site) {
    if (!write(folder / file.path, file.contents)) return false;
  }
  return true;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 2) {
    return 1;
  }
  const std::string_view form = argc > 2 ? argv[2] : "live";
  if (form == "site") {
    return write_site(argv[1]) ? 0 : 1;
  }
  const pointwright::LiveParts live = pointwright::app::course_parts();
  const auto page =
      pointwright::page_html(pointwright::sample_course(), form == "plain" ? nullptr : &live);
  return page && write(argv[1], *page) ? 0 : 1;
}

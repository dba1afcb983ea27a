// Writes the page of the sample course to a file, for the tests in a browser: live, or plain.
// usage: sample_page FILE [plain]
#include <fstream>

#include "app/live.hpp"
#include "studio/page.hpp"
#include "tests/page/sample_course.hpp"

int main(int argc, char** argv) {
  if (argc < 2) {
    return 1;
  }
  const pointwright::LiveParts live = pointwright::app::course_parts();
  const auto page =
      pointwright::page_html(pointwright::sample_course(), argc > 2 ? nullptr : &live);
  if (!page) {
    return 1;
  }
  std::ofstream file(argv[1], std::ios::binary);
  file << *page;
  return file.flush() ? 0 : 1;
}

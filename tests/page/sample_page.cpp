// Writes the page of the sample course to a file, for the tests in a browser.
#include <fstream>

#include "studio/page.hpp"
#include "tests/page/sample_course.hpp"

int main(int argc, char** argv) {
  const auto page = pointwright::page_html(pointwright::sample_course());
  if (argc != 2 || !page) {
    return 1;
  }
  std::ofstream file(argv[1], std::ios::binary);
  file << *page;
  return file.flush() ? 0 : 1;
}

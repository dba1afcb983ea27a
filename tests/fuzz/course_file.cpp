// Fuzzes the lesson compiler with the text of course.yaml. The files that it names are a small
// lesson; a name that leads out of the course's folder must never be asked for.

#include <cstddef>
#include <cstdint>
#include <string>

#include "lesson/lesson.hpp"
#include "tests/fuzz/compilation.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace pointwright;
  const std::string text(data, data + size);
  const lesson::Host host{[&](const std::string& name) -> Result<std::string, lesson::ReadFailure> {
    if (name == "course.yaml") return text;
    fuzz::require(name.find_first_of("/\\") == std::string::npos && name != "..",
                  "the compiler asks for plain names only");
    if (name.find("missing") != std::string::npos) return lesson::ReadFailure{"not there"};
    return std::string("---\ntitle: A small lesson\n---\nWords.\n");
  }};
  fuzz::require_good_compilation(lesson::compile_course(host));
  return 0;
}

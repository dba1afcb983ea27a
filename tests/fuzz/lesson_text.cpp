// Fuzzes the lesson compiler with the text of one lesson: diagnostics point into the text, can be
// laid out, and agree with the outcome; what was proved survives the way through JSON.

#include <cstddef>
#include <cstdint>
#include <string>

#include "lesson/lesson.hpp"
#include "tests/fuzz/compilation.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace pointwright;
  const std::string text(data, data + size);
  const lesson::Host host{
      [&](const std::string&) -> Result<std::string, lesson::ReadFailure> { return text; }};
  fuzz::require_good_compilation(lesson::compile_lesson(host, "lesson.md"));
  return 0;
}

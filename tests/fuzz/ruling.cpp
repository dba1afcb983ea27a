// Fuzzes the referee with text: a position line, a line break, and a play in the trade's notation.

#include <cstddef>
#include <cstdint>
#include <string>

#include "tests/fuzz/referee.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace pointwright;
  const std::string text(data, data + size);
  const std::size_t end_of_line = text.find('\n');
  if (end_of_line == std::string::npos) return 0;
  const auto position = read_position(text.substr(0, end_of_line));
  const auto attempt = read_play(text.substr(end_of_line + 1));
  if (!position || !attempt || !position->turn || !position->roll) return 0;
  fuzz::require_good_ruling(*position, *attempt);
  return 0;
}

// Fuzzes the reader of position lines: what it accepts is printed and read back to the same
// position, what it refuses has faults that point into the text.

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "rules/position.hpp"
#include "tests/fuzz/require.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace pointwright;
  const std::string text(data, data + size);
  const auto read = read_position(text);
  if (!read) {
    fuzz::require_good_faults(read.error(), text);
    return 0;
  }
  const std::string line = to_text(*read);
  const auto again = read_position(line);
  fuzz::require(again.ok() && *again == *read, "a printed position reads back the same");
  fuzz::require(to_text(*again) == line, "printing is canonical");
  fuzz::require(hash(*again) == hash(*read), "equal positions have equal hashes");
  const auto from_url = read_position(to_url_text(*read));
  fuzz::require(from_url.ok() && *from_url == *read, "the form for URLs reads back the same");
  return 0;
}

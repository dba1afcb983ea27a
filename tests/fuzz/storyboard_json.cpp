// Fuzzes the reader of storyboards: what it accepts is written and read back to the same bytes.

#include <cstddef>
#include <cstdint>
#include <string>

#include "storyboard/json.hpp"
#include "tests/fuzz/require.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace pointwright;
  const auto read = storyboard_from_json(std::string(data, data + size));
  if (!read) {
    fuzz::require(!read.error().reason.empty(), "a refused text has a reason");
    return 0;
  }
  const std::string json = to_json(*read);
  const auto again = storyboard_from_json(json);
  fuzz::require(again.ok() && to_json(*again) == json, "a written storyboard reads back the same");
  return 0;
}

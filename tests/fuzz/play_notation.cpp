// Fuzzes the reader of play notation: an attempt has whole journeys between places, a refusal has
// faults that point into the text.

#include <cstddef>
#include <cstdint>
#include <string>

#include "rules/notation.hpp"
#include "tests/fuzz/require.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace pointwright;
  const std::string text(data, data + size);
  const auto read = read_play(text);
  if (!read) {
    fuzz::require_good_faults(read.error(), text);
    return 0;
  }
  for (const Journey& journey : read->journeys) {
    fuzz::require(journey.stops.size() >= 2, "a journey starts somewhere and ends elsewhere");
    fuzz::require(journey.hits.size() == journey.stops.size(), "each stop says whether it hits");
    fuzz::require(journey.where.begin < journey.where.end && journey.where.end <= text.size(),
                  "a journey points into the text");
    for (const Place place : journey.stops) {
      fuzz::require(place <= bar_place, "a stop is a place");
    }
  }
  return 0;
}

// Fuzzes validation and the referee with set-ups and attempts made straight from the bytes, so that
// most inputs are something that a person could have put on a board and tried.

#include "rules/setup.hpp"

#include <fuzzer/FuzzedDataProvider.h>

#include <cstddef>
#include <cstdint>

#include "tests/fuzz/referee.hpp"

namespace {

using namespace pointwright;

Setup random_setup(FuzzedDataProvider& bytes) {
  Setup setup;
  for (std::size_t side = 0; side < 2; ++side) {
    const int stacks = bytes.ConsumeIntegralInRange(0, 8);
    for (int i = 0; i < stacks; ++i) {
      const auto place = bytes.ConsumeIntegralInRange<std::size_t>(1, bar_place);
      setup.camps.at(side).at(place) = bytes.ConsumeIntegralInRange(-1, 6);
    }
  }
  setup.turn = bytes.ConsumeBool() ? Side::light : Side::dark;
  setup.dice = {bytes.ConsumeIntegralInRange(0, 7), bytes.ConsumeIntegralInRange(1, 6)};
  return setup;
}

Attempt random_attempt(FuzzedDataProvider& bytes) {
  Attempt attempt;
  const int journeys = bytes.ConsumeIntegralInRange(0, 5);
  for (int i = 0; i < journeys; ++i) {
    Journey journey;
    Place place = bytes.ConsumeIntegralInRange<Place>(1, bar_place);
    journey.stops.push_back(place);
    const int steps = bytes.ConsumeIntegralInRange(1, 4);
    for (int step = 0; step < steps && place != off_place; ++step) {
      const int pips = bytes.ConsumeIntegralInRange(1, 12);
      place = place > pips ? static_cast<Place>(place - pips) : off_place;
      journey.stops.push_back(place);
    }
    for (std::size_t stop = 0; stop < journey.stops.size(); ++stop) {
      journey.hits.push_back(stop > 0 && bytes.ConsumeIntegralInRange(0, 7) == 0);
    }
    attempt.journeys.push_back(journey);
  }
  return attempt;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  FuzzedDataProvider bytes(data, size);
  const auto position = validate(random_setup(bytes));
  if (!position) {
    fuzz::require(!position.error().empty(), "a refused set-up has a fault");
    for (const SetupFault& fault : position.error()) {
      fuzz::require(!fault.id.empty() && !fault.reason.empty() && !fault.fix.empty(),
                    "a fault has a name, a reason and a fix");
    }
    return 0;
  }
  const std::string line = to_text(*position);
  const auto again = read_position(line);
  fuzz::require(again.ok() && *again == *position, "a valid set-up prints and reads back");
  fuzz::require_good_ruling(*position, random_attempt(bytes));
  return 0;
}

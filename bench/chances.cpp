// chances: the whole chance card of a position (36 rolls, every event that can be asked of it),
// made by listing the plays of each roll once, beside the plain way, which lists them again for
// every event. Both must count the same. Positions are met in games of random plays.

#include <fmt/format.h>

#include <cstdint>
#include <vector>

#include "bench/timing.hpp"
#include "chance/next_roll.hpp"
#include "tests/reference/positions.hpp"

namespace {

using namespace pointwright;
using reference::Trial;

constexpr std::uint64_t seed = 1;
constexpr int positions = 300;
constexpr int tries = 3;

/// What a card holds, added up: the two ways must agree on it.
struct Sum {
  std::int64_t events = 0;
  std::int64_t ways = 0;
  friend bool operator==(const Sum&, const Sum&) = default;
};

Sum card_at_once(const Trial& trial) {
  Sum sum;
  for (const auto& line : chance::card(chance::NextRoll(trial.board, trial.side))) {
    ++sum.events;
    sum.ways += line.count.ways;
  }
  return sum;
}

/// The same events, each counted from the board alone.
Sum card_event_by_event(const Trial& trial, const std::vector<chance::Query>& queries) {
  Sum sum;
  for (const chance::Query& query : queries) {
    ++sum.events;
    sum.ways += chance::count(chance::NextRoll(trial.board, trial.side), query).ways;
  }
  return sum;
}

/// Nanoseconds for each position.
template <class Make>
double time_it(const std::vector<Trial>& trials, Sum& total, const Make& make) {
  const double seconds = bench::fastest(tries, [&] {
    total = {};
    for (std::size_t at = 0; at < trials.size(); ++at) {
      const Sum sum = make(at);
      total.events += sum.events;
      total.ways += sum.ways;
    }
  });
  return 1e9 * seconds / static_cast<double>(trials.size());
}

}  // namespace

int main() {
  reference::Trials source(seed);
  std::vector<Trial> trials;
  std::vector<std::vector<chance::Query>> queries;
  while (trials.size() < positions) {
    const Trial trial = source.next(reference::Kind::game);
    if (has_won(trial.board, Side::light) || has_won(trial.board, Side::dark)) continue;
    trials.push_back(trial);
    auto& asked = queries.emplace_back();
    for (auto& line : chance::card(chance::NextRoll(trial.board, trial.side)))
      asked.push_back(std::move(line.query));
  }
  Sum fast;
  Sum plain;
  const double at_once =
      time_it(trials, fast, [&](std::size_t i) { return card_at_once(trials[i]); });
  const double by_event = time_it(
      trials, plain, [&](std::size_t i) { return card_event_by_event(trials[i], queries[i]); });
  fmt::print("{} positions, {} events\n", positions, fast.events);
  fmt::print("card at once    {:>12.0f} ns/position\n", at_once);
  fmt::print("event by event  {:>12.0f} ns/position, {:.1f} times as long\n", by_event,
             by_event / at_once);
  if (fast == plain) return 0;
  fmt::print(stderr, "the two ways count differently\n");
  return 1;
}

// legal_plays: how fast legal plays are listed, on positions of random games, beside the slow,
// simple reference generator on a part of the same positions. Prints a signature too, which must be
// the same in every build.

#include <fmt/format.h>

#include <cstdint>
#include <vector>

#include "bench/timing.hpp"
#include "rules/play.hpp"
#include "tests/reference/positions.hpp"
#include "tests/reference/reference.hpp"
#include "tests/reference/signature.hpp"

namespace {

using namespace pointwright;
using reference::Trial;

constexpr std::uint64_t seed = 1;
constexpr int positions = 100'000;
constexpr int tries = 7;
constexpr int part_for_the_reference = 100;  // one position in so many

std::vector<Trial> positions_of_games() {
  reference::Trials source(seed);
  std::vector<Trial> trials;
  trials.reserve(positions);
  for (int i = 0; i < positions; ++i) trials.push_back(source.next(reference::Kind::game));
  return trials;
}

struct Timing {
  double nanoseconds = 0.0;  ///< of processor time for all positions, in the fastest try
  std::int64_t plays = 0;
  std::int64_t rolls = 0;
};

/// Times `list`, which returns how many plays a trial has.
template <class List>
Timing time_it(const std::vector<Trial>& trials, int times, const List& list) {
  Timing timing;
  timing.nanoseconds = 1e9 * bench::fastest(times, [&] {
                         timing.plays = 0;
                         for (const Trial& trial : trials) timing.plays += list(trial);
                       });
  timing.rolls = static_cast<std::int64_t>(trials.size());
  return timing;
}

void print(const char* name, const Timing& timing) {
  const auto plays = static_cast<double>(timing.plays);
  const auto rolls = static_cast<double>(timing.rolls);
  fmt::print("{:<12}{:>9} rolls{:>10} plays{:>14.0f} plays/s{:>12.0f} ns/roll{:>10.1f} ns/play\n",
             name, timing.rolls, timing.plays, plays / timing.nanoseconds * 1e9,
             timing.nanoseconds / rolls, timing.nanoseconds / plays);
}

}  // namespace

int main() {
  const std::vector<Trial> trials = positions_of_games();
  std::vector<Trial> few;
  for (std::size_t i = 0; i < trials.size(); i += part_for_the_reference) few.push_back(trials[i]);

  std::vector<LegalPlay> plays;
  const auto by_rules = [&](const Trial& trial) {
    legal_plays(trial.board, trial.side, trial.roll, plays);
    return static_cast<std::int64_t>(plays.size());
  };
  const auto by_reference = [](const Trial& trial) {
    return static_cast<std::int64_t>(
        reference::results(trial.board, trial.side, trial.roll).size());
  };

  const Timing all = time_it(trials, tries, by_rules);
  const Timing part = time_it(few, tries * part_for_the_reference, by_rules);
  const Timing slow = time_it(few, 3, by_reference);
  print("rules", all);
  print("same part", part);
  print("reference", slow);
  fmt::print("{:.0f} times as fast as the reference on the same positions\n",
             slow.nanoseconds / part.nanoseconds);
  const reference::Signature signature = reference::signature(seed, positions);
  fmt::print("signature {} plays, {:016x}\n", signature.plays, signature.folded);
  if (part.plays != slow.plays) {
    fmt::print(stderr, "the two count different numbers of plays\n");
    return 1;
  }
  return 0;
}

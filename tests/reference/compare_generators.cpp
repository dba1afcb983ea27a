// compare_generators: compares the generator of legal plays with the slow, simple reference on
// random positions and rolls, or on all positions of a small family with all 21 rolls.

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <chrono>
#include <cstdint>
#include <cstdio>
#include <string>
#include <vector>

#include "tests/reference/compare.hpp"
#include "tests/reference/positions.hpp"

namespace {

using namespace pointwright;
using reference::Trial;

/// Counts comparisons, says now and then how many were made, and stops at the first difference.
class Tally {
 public:
  bool add(const Trial& trial) {
    const std::string found = reference::difference(trial);
    if (!found.empty()) {
      fmt::print("DIFFERENCE: {}\n", found);
      differs_ = true;
      return false;
    }
    ++compared_;
    if (compared_ % 100'000 == 0) {
      fmt::print(stderr, "{:>10} compared, {:.0f} s\n", compared_, seconds());
    }
    return true;
  }

  int report(const std::string& what) const {
    if (differs_) return 1;
    fmt::print("{} comparisons ({}), no difference, {:.0f} s\n", compared_, what, seconds());
    return 0;
  }

 private:
  using Clock = std::chrono::steady_clock;
  Clock::time_point started_ = Clock::now();
  std::int64_t compared_ = 0;
  bool differs_ = false;

  [[nodiscard]] double seconds() const {
    return std::chrono::duration<double>(Clock::now() - started_).count();
  }
};

bool add_all_rolls(Tally& tally, const Board& board) {
  for (const Roll roll : all_rolls()) {
    if (!tally.add({board, Side::light, roll})) return false;
    if (!tally.add({swapped(board), Side::dark, roll})) return false;
  }
  return true;
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app{"Compares the generator of legal plays with the reference generator."};
  std::int64_t positions = 50'000;
  std::uint64_t seed = 1;
  std::vector<int> tiny;
  bool home = false;
  app.add_option("--positions", positions, "random positions and rolls to compare")
      ->capture_default_str();
  app.add_option("--seed", seed, "chooses the random positions")->capture_default_str();
  app.add_option("--tiny", tiny,
                 "instead: all boards with up to so many checkers of the mover and of the other "
                 "side, with all rolls")
      ->expected(2);
  app.add_flag("--home", home, "instead: all boards with the mover bearing off, with all rolls");
  CLI11_PARSE(app, argc, argv);

  Tally tally;
  if (!tiny.empty()) {
    reference::for_each_tiny_board(tiny[0], tiny[1],
                                   [&](const Board& board) { return add_all_rolls(tally, board); });
    return tally.report(
        fmt::format("all boards of up to {} against {} checkers, from both sides, "
                    "all rolls",
                    tiny[0], tiny[1]));
  }
  if (home) {
    reference::for_each_home_board([&](const Board& board) { return add_all_rolls(tally, board); });
    return tally.report("all positions of bearing off, from both sides, all rolls");
  }
  reference::Trials trials(seed);
  for (std::int64_t i = 0; i < positions; ++i) {
    const auto kind = static_cast<reference::Kind>(i % reference::kind_count);
    if (!tally.add(trials.next(kind))) break;
  }
  return tally.report(
      fmt::format("random positions and rolls of {} kinds, seed {}", reference::kind_count, seed));
}

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <string>
#include <vector>

#include "judge/contest.hpp"
#include "judge/rollout.hpp"
#include "judge/shipped.hpp"

/// Compares searched numbers with rollouts, over decisions from games of `steady` against itself.
/// Usage: bench_search_error DECISIONS TRIALS [SEED]. Prints one line for each decision; the
/// summary that docs/claims-from-search.md gives is made from them with --summary on standard
/// input.
namespace pointwright::judge {
namespace {

struct Case {
  Board board;
  Side side = Side::light;
  Roll roll{2, 1};
};

/// Decisions of games, each taken with one chance in ten so that they are far apart.
std::vector<Case> cases(int count, std::uint64_t seed) {
  std::vector<Case> result;
  RandomStream random(seed);
  Search search(shipped_evaluator());
  Board board = starting_board();
  Side side = Side::light;
  while (static_cast<int>(result.size()) < count) {
    const Roll roll(1 + random.below(6), 1 + random.below(6));
    if (random.below(10) == 0 && legal_plays(board, side, roll).size() > 1) {
      result.push_back({board, side, roll});
    }
    board = search.best_after(board, side, roll, 0);
    if (has_won(board, side)) board = starting_board();
    side = opponent(side);
  }
  return result;
}

/// "win1 win2 win error gammon1 gammon2 gammon error equity1 equity2 equity error lead1 lead2 lead
/// error", searched one and two rolls deep, rolled out, and the standard error of that.
void print(const Case& at, std::uint64_t trials, std::uint64_t seed) {
  Search search(shipped_evaluator());
  const auto ranked = search.rank(at.board, at.side, at.roll, 2);
  if (ranked.size() < 2 || ranked[1].depth < 2) return;  // the tables answer, or it is too plain
  const Side other = opponent(at.side);
  Rollout rollout(shipped_evaluator(), {.seed = seed},
                  {{.board = ranked[0].play.after, .on_roll = other},
                   {.board = ranked[1].play.after, .on_roll = other}},
                  at.side);
  Tally tally(2);
  for (std::uint64_t block = 0; tally.trials < trials; ++block) rollout.add_block(block, tally);
  std::array<std::array<SearchedValue, 2>, 2> searched;  // [play][depth - 1], of the other side
  for (std::size_t play = 0; play < 2; ++play) {
    for (int depth = 1; depth <= 2; ++depth) {
      searched[play][static_cast<std::size_t>(depth - 1)] =
          search.worth(ranked[play].play.after, other, depth);
    }
  }
  const auto of = [](float number) { return static_cast<double>(number); };
  const auto chances = [&](std::size_t depth) { return searched[0][depth].chances.reversed(); };
  fmt::print("{:.5f} {:.5f} {:.5f} {:.5f} ", of(chances(0).win), of(chances(1).win),
             of(tally.chances(0).win), tally.starts[0].chances[0].error(tally.trials));
  fmt::print("{:.5f} {:.5f} {:.5f} {:.5f} ", of(chances(0).win_gammon), of(chances(1).win_gammon),
             of(tally.chances(0).win_gammon), tally.starts[0].chances[1].error(tally.trials));
  fmt::print("{:.5f} {:.5f} {:.5f} {:.5f} ", -of(searched[0][0].equity), -of(searched[0][1].equity),
             tally.equity(0), tally.error(0));
  fmt::print("{:.5f} {:.5f} {:.5f} {:.5f}\n", of(searched[1][0].equity - searched[0][0].equity),
             of(searched[1][1].equity - searched[0][1].equity), tally.lead(0, 1),
             tally.lead_error(0, 1));
  std::fflush(stdout);
}

/// Root mean square and 95th percentile of the differences between the search and the rollout, the
/// rollout's own error included.
void summarize() {
  const std::array<const char*, 4> names{"winning chance", "gammon chance", "equity",
                                         "lead over the second play"};
  std::array<std::array<std::vector<double>, 2>, 4> off;
  std::array<double, 4> errors{};
  std::array<double, 16> numbers{};
  std::size_t count = 0;
  while (true) {
    for (double& number : numbers) {
      if (std::scanf("%lf", &number) != 1) goto done;
    }
    ++count;
    for (std::size_t what = 0; what < 4; ++what) {
      for (std::size_t depth = 0; depth < 2; ++depth) {
        off[what][depth].push_back(std::abs(numbers[4 * what + depth] - numbers[4 * what + 2]));
      }
      errors[what] += numbers[4 * what + 3] * numbers[4 * what + 3];
    }
  }
done:
  fmt::print(
      "{} decisions\n\n| number | rolls ahead | root mean square | 95 of 100 within | "
      "rollout's own error |\n| --- | --- | --- | --- | --- |\n",
      count);
  for (std::size_t what = 0; what < 4; ++what) {
    for (std::size_t depth = 0; depth < 2; ++depth) {
      std::vector<double>& all = off[what][depth];
      double squares = 0;
      for (const double difference : all) squares += difference * difference;
      std::ranges::sort(all);
      fmt::print("| {} | {} | {:.4f} | {:.4f} | {:.4f} |\n", names[what], depth + 1,
                 std::sqrt(squares / static_cast<double>(count)), all[count * 95 / 100],
                 std::sqrt(errors[what] / static_cast<double>(count)));
    }
  }
}

}  // namespace
}  // namespace pointwright::judge

int main(int argc, char** argv) {
  using namespace pointwright::judge;
  if (argc == 2 && std::string(argv[1]) == "--summary") {
    summarize();
    return 0;
  }
  const int count = argc > 1 ? std::atoi(argv[1]) : 20;
  const auto trials = static_cast<std::uint64_t>(argc > 2 ? std::atoi(argv[2]) : 144);
  const auto seed = static_cast<std::uint64_t>(argc > 3 ? std::atoi(argv[3]) : 1);
  for (const Case& at : cases(count, seed)) print(at, trials, seed);
}

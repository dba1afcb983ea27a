// Endings and races: how long the tables take, beside plain implementations in the same run.
//   build/release/bench/bench_chance_endings

#include <benchmark/benchmark.h>

#include <cmath>
#include <map>
#include <random>
#include <vector>

#include "chance/race.hpp"
#include "rules/play.hpp"

namespace pointwright {
namespace {

void one_sided_home(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(OneSidedTable<double>(6, 15));
}
BENCHMARK(one_sided_home)->Unit(benchmark::kMillisecond);

void two_sided_six(benchmark::State& state) {
  const BearoffFamily family(6, 6);
  std::vector<TwoSidedEntry<double>> entries(std::size_t{family.size()} * family.size());
  for (auto _ : state) solve_two_sided(family, std::span(entries), {});
}
BENCHMARK(two_sided_six)->Unit(benchmark::kMillisecond);

/// The plain way: recursion with a map, plays from the rules room, means only.
class PlainMeans {
 public:
  double mean(const Camp& camp) {
    if (camp[off_place] == checkers_per_side) return 0;
    if (const auto found = means_.find(camp); found != means_.end()) return found->second;
    Board board;
    board.of(Side::light) = camp;
    board.of(Side::dark)[1] = 1;
    board.of(Side::dark)[off_place] = 14;
    double sum = 0;
    for (const Roll roll : all_rolls()) {
      double best = 1e9;
      for (const LegalPlay& play : legal_plays(board, Side::light, roll)) {
        best = std::min(best, mean(play.after.of(Side::light)));
      }
      sum += roll.ways() * best;
    }
    return means_[camp] = 1 + sum / 36;
  }

 private:
  std::map<Camp, double> means_;
};

/// Means of the 924 positions of up to six checkers: plain, then as a table with all chances.
void one_sided_six_plain(benchmark::State& state) {
  const BearoffFamily family(6, 6);
  for (auto _ : state) {
    PlainMeans plain;
    for (std::uint32_t rank = 0; rank < family.size(); ++rank) {
      benchmark::DoNotOptimize(plain.mean(family.camp(rank)));
    }
  }
}
BENCHMARK(one_sided_six_plain)->Unit(benchmark::kMillisecond);

void one_sided_six_table(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(OneSidedTable<double>(6, 6));
}
BENCHMARK(one_sided_six_table)->Unit(benchmark::kMillisecond);

/// A look-up as an answer needs it: from the checkers on the board to the numbers.
void look_up_two_sided(benchmark::State& state) {
  const TwoSidedTable<double>& table = small_races();
  std::mt19937 random(1);
  std::vector<Camp> camps;
  for (int i = 0; i < 4096; ++i) {
    camps.push_back(table.family().camp(1 + random() % (table.family().size() - 1)));
  }
  std::size_t i = 0;
  for (auto _ : state) {
    const Camp& own = camps[i % 4096];
    const Camp& other = camps[(i * 7 + 3) % 4096];
    benchmark::DoNotOptimize(table.values(table.family().rank(own), table.family().rank(other)));
    ++i;
  }
}
BENCHMARK(look_up_two_sided);

void look_up_one_sided(benchmark::State& state) {
  const OneSidedTable<double>& table = home_table();
  std::mt19937 random(1);
  std::vector<Camp> camps;
  for (int i = 0; i < 4096; ++i) camps.push_back(table.family().camp(random() % 54264));
  std::size_t i = 0;
  for (auto _ : state) {
    benchmark::DoNotOptimize(table.mean(table.family().rank(camps[i++ % 4096])));
  }
}
BENCHMARK(look_up_one_sided);

/// The error of convolution over every race of up to six checkers, as counters.
void convolution_errors(benchmark::State& state) {
  const BearoffFamily& family = small_races().family();
  double largest = 0;
  double sum = 0;
  double pairs = 0;
  for (auto _ : state) {
    for (std::uint32_t a = 1; a < family.size(); ++a) {
      const auto own = home_table().spread(home_table().family().rank(family.camp(a)));
      for (std::uint32_t b = 1; b < family.size(); ++b) {
        const auto other = home_table().spread(home_table().family().rank(family.camp(b)));
        const double error = std::abs(first_is_sooner(own, other) - small_races().values(a, b).win);
        largest = std::max(largest, error);
        sum += error;
        ++pairs;
      }
    }
  }
  state.counters["largest"] = largest;
  state.counters["mean"] = sum / pairs;
}
BENCHMARK(convolution_errors)->Unit(benchmark::kMillisecond)->Iterations(1);

}  // namespace
}  // namespace pointwright

BENCHMARK_MAIN();

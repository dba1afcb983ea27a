// Endings and races: how long the tables take, beside plain implementations in the same run.
//   build/release/bench/bench_chance_endings [FOLDER]
// FOLDER holds tables made by `pointwright tables build`; without it the benchmarks that need one
// are left out.

#include <benchmark/benchmark.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <map>
#include <random>
#include <vector>

#include "chance/race.hpp"
#include "rules/play.hpp"
#include "table_store/table_store.hpp"

namespace pointwright {
namespace {

void one_sided_home(benchmark::State& state) {
  for ([[maybe_unused]] auto _ : state) benchmark::DoNotOptimize(OneSidedTable<double>(6, 15));
}
BENCHMARK(one_sided_home)->Unit(benchmark::kMillisecond);

void two_sided_six(benchmark::State& state) {
  const BearoffFamily family(6, 6);
  std::vector<TwoSidedEntry<double>> entries(std::size_t{family.size()} * family.size());
  for ([[maybe_unused]] auto _ : state) solve_two_sided(family, std::span(entries), {});
}
BENCHMARK(two_sided_six)->Unit(benchmark::kMillisecond);

/// The plain way: recursion with a map, plays from the rules room, the four values of each pair.
class PlainRaces {
 public:
  using Pair = std::pair<Camp, Camp>;

  CubeValues values(const Camp& own, const Camp& other) {
    if (other[off_place] == checkers_per_side) return {0, -1, -1, -1};
    const Pair pair{own, other};
    if (const auto found = values_.find(pair); found != values_.end()) return found->second;
    Board board;
    board.of(Side::light) = own;
    board.of(Side::dark) = other;
    CubeValues sum{};
    for (const Roll roll : all_rolls()) {
      CubeValues best{0, -1, -1, -1};
      for (const LegalPlay& play : legal_plays(board, Side::light, roll)) {
        const CubeValues reply = values(other, play.after.of(Side::light));
        best.win = std::max(best.win, 1 - reply.win);
        best.hold_centred = std::max(best.hold_centred, -reply.equity(CubeAccess::centred));
        best.hold_mine = std::max(best.hold_mine, -reply.equity(CubeAccess::theirs));
        best.theirs = std::max(best.theirs, -reply.equity(CubeAccess::mine));
      }
      const double weight = roll.ways() / 36.0;
      sum.win += weight * best.win;
      sum.hold_centred += weight * best.hold_centred;
      sum.hold_mine += weight * best.hold_mine;
      sum.theirs += weight * best.theirs;
    }
    return values_[pair] = sum;
  }

 private:
  std::map<Pair, CubeValues> values_;
};

/// All 83² races of up to three checkers a side: plain, then as a table.
void two_sided_three_plain(benchmark::State& state) {
  const BearoffFamily family(6, 3);
  for ([[maybe_unused]] auto _ : state) {
    PlainRaces plain;
    for (std::uint32_t a = 1; a < family.size(); ++a) {
      for (std::uint32_t b = 1; b < family.size(); ++b) {
        benchmark::DoNotOptimize(plain.values(family.camp(a), family.camp(b)));
      }
    }
  }
}
BENCHMARK(two_sided_three_plain)->Unit(benchmark::kMillisecond);

void two_sided_three_table(benchmark::State& state) {
  const BearoffFamily family(6, 3);
  std::vector<TwoSidedEntry<double>> entries(std::size_t{family.size()} * family.size());
  for ([[maybe_unused]] auto _ : state) solve_two_sided(family, std::span(entries), {});
}
BENCHMARK(two_sided_three_table)->Unit(benchmark::kMillisecond);

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
  for ([[maybe_unused]] auto _ : state) {
    PlainMeans plain;
    for (std::uint32_t rank = 0; rank < family.size(); ++rank) {
      benchmark::DoNotOptimize(plain.mean(family.camp(rank)));
    }
  }
}
BENCHMARK(one_sided_six_plain)->Unit(benchmark::kMillisecond);

void one_sided_six_table(benchmark::State& state) {
  for ([[maybe_unused]] auto _ : state) benchmark::DoNotOptimize(OneSidedTable<double>(6, 6));
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
  for ([[maybe_unused]] auto _ : state) {
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
  for ([[maybe_unused]] auto _ : state) {
    benchmark::DoNotOptimize(table.mean(table.family().rank(camps[i++ % 4096])));
  }
}
BENCHMARK(look_up_one_sided);

/// The error of convolution over every race that a table of both sides holds, as counters.
template <class Table>
void convolution_errors(benchmark::State& state, const Table& table) {
  const BearoffFamily& family = table.family();
  std::vector<RollSpread<double>> spreads;
  for (std::uint32_t rank = 0; rank < family.size(); ++rank) {
    spreads.push_back(home_table().spread(home_table().family().rank(family.camp(rank))));
  }
  double largest = 0;
  double sum = 0;
  double pairs = 0;
  for ([[maybe_unused]] auto _ : state) {
    for (std::uint32_t waiting = 1; waiting < family.size(); ++waiting) {
      for (std::uint32_t on_roll = 1; on_roll < family.size(); ++on_roll) {
        const double error = std::abs(first_is_sooner(spreads[on_roll], spreads[waiting]) -
                                      table.values(on_roll, waiting).win);
        largest = std::max(largest, error);
        sum += error;
        ++pairs;
      }
    }
  }
  state.counters["largest"] = largest;
  state.counters["mean"] = sum / pairs;
  state.counters["pairs"] = pairs;
}

void convolution_errors_six(benchmark::State& state) {
  convolution_errors(state, small_races());
}
BENCHMARK(convolution_errors_six)->Unit(benchmark::kMillisecond)->Iterations(1);

/// A look-up in the file of the three-checker endgame, from the board to the numbers.
void look_up_three_checkers(benchmark::State& state, const ThreeCheckerTable& table) {
  std::mt19937 random(1);
  std::vector<Board> boards;
  while (boards.size() < 4096) {
    const auto own = static_cast<std::uint32_t>(1 + random() % (table.index().size() - 1));
    const auto other = static_cast<std::uint32_t>(1 + random() % (table.index().size() - 1));
    if (!table.index().fit(own, other)) continue;
    Board& board = boards.emplace_back();
    board.of(Side::light) = table.index().camp(own);
    board.of(Side::dark) = table.index().camp(other);
  }
  std::size_t i = 0;
  for ([[maybe_unused]] auto _ : state) {
    benchmark::DoNotOptimize(table.values(boards[i++ % boards.size()], Side::light));
  }
}

}  // namespace
}  // namespace pointwright

int main(int argc, char** argv) {
  using namespace pointwright;
  benchmark::Initialize(&argc, argv);
  const std::filesystem::path folder = argc > 1 ? argv[1] : "";
  const auto three = StoredThreeChecker::open(folder / three_checker_name());
  if (three.ok()) {
    benchmark::RegisterBenchmark("look_up_three_checkers", look_up_three_checkers, three->table());
  }
  constexpr int checkers = 10;
  const auto ten = StoredTwoSided::open(folder / two_sided_name(checkers), checkers);
  if (ten.ok()) {
    benchmark::RegisterBenchmark("convolution_errors_ten", convolution_errors<TwoSidedTable<float>>,
                                 ten->table())
        ->Unit(benchmark::kMillisecond)
        ->Iterations(1);
  }
  benchmark::RunSpecifiedBenchmarks();
}

// parallel_search: how long a decision takes two steps deep, by the clock on the wall, on one
// thread and on more. Run it on a machine that has nothing else to do.

#include "judge/parallel_search.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <thread>

#include "bench/self_play.hpp"
#include "table_store/parallel_host.hpp"

int main() {
  using namespace pointwright;
  constexpr std::size_t every = 40;
  const auto all = bench::decisions(2000);
  const auto milliseconds = [&](unsigned threads) {
    double best = 1e9;
    for (int i = 0; i < 5; ++i) {
      judge::ParallelSearch search(judge::shipped_evaluator(), parallel_host(threads), threads);
      const auto started = std::chrono::steady_clock::now();
      for (std::size_t k = 0; k < all.size(); k += every)
        search.rank(all[k].board, all[k].side, all[k].roll, 2);
      const std::chrono::duration<double, std::milli> taken =
          std::chrono::steady_clock::now() - started;
      best = std::min(best, taken.count());
    }
    return best / (static_cast<double>(all.size()) / every);
  };
  const double one = milliseconds(1);
  fmt::print("1 thread  {:>7.2f} ms for a decision at depth 2\n", one);
  for (unsigned threads = 2; threads <= std::max(2U, std::thread::hardware_concurrency());
       threads *= 2) {
    const double more = milliseconds(threads);
    fmt::print("{} threads {:>7.2f} ms, {:.2f} times as fast\n", threads, more, one / more);
  }
  return 0;
}

// rollouts: trials a second on one thread and on more, by the clock on the wall, for only that
// shows whether the second core helps. Run it on a machine that has nothing else to do.

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <thread>

#include "judge/shipped.hpp"
#include "rollouts/rollout_job.hpp"

int main() {
  using namespace pointwright;
  RolloutJob job;
  job.settings.truncate_after = 10;
  job.starts = {{starting_board(), Side::light}};
  job.trials = 2592;
  const auto seconds = [&](unsigned threads) {
    double best = 1e9;
    for (int i = 0; i < 3; ++i) {
      RolloutProgress progress(job);
      const auto started = std::chrono::steady_clock::now();
      run(job, 0, judge::shipped_evaluator(), {.threads = threads}, progress);
      best = std::min(
          best, std::chrono::duration<double>(std::chrono::steady_clock::now() - started).count());
    }
    return best;
  };
  const auto trials = static_cast<double>(job.trials);
  const double one = seconds(1);
  fmt::print("1 thread  {:>8.0f} trials a second\n", trials / one);
  for (unsigned threads = 2; threads <= std::max(2U, std::thread::hardware_concurrency());
       threads *= 2) {
    const double more = seconds(threads);
    fmt::print("{} threads {:>8.0f} trials a second, {:.2f} times as many\n", threads,
               trials / more, one / more);
  }
  return 0;
}

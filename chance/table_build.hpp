#pragma once

#include <cstddef>
#include <functional>

namespace pointwright {

/// What the host offers while a table is built. The room itself starts no threads, reads no clock
/// and prints nothing, so that it also runs in a browser.
struct BuildHost {
  /// Hears how much is done, 0 to 1; returns whether to go on. Empty: nobody listens.
  std::function<bool(double done)> progress;

  /// Calls `work(begin, end)` on pieces that together cover [0, count), perhaps on several threads,
  /// and returns when all are done. Empty: one piece, on this thread.
  std::function<void(std::size_t count,
                     const std::function<void(std::size_t begin, std::size_t end)>& work)>
      in_parallel;

  [[nodiscard]] bool report(double done) const { return !progress || progress(done); }

  void split(std::size_t count,
             const std::function<void(std::size_t begin, std::size_t end)>& work) const {
    if (in_parallel) {
      in_parallel(count, work);
    } else if (count > 0) {
      work(0, count);
    }
  }
};

}  // namespace pointwright

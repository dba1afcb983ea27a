#pragma once

#include <algorithm>
#include <ctime>

namespace pointwright::bench {

/// Processor time in seconds, which other programs on the machine disturb less than the clock on
/// the wall. Of one thread: it adds up over several.
inline double processor_seconds() {
  return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

/// The shortest of so many tries, in seconds: the others were disturbed.
template <class Work>
double fastest(int tries, const Work& work) {
  double best = 0;
  for (int i = 0; i < tries; ++i) {
    const double started = processor_seconds();
    work();
    const double taken = processor_seconds() - started;
    best = i == 0 ? taken : std::min(best, taken);
  }
  return best;
}

}  // namespace pointwright::bench

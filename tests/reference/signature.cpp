#include "tests/reference/signature.hpp"

#include <vector>

#include "rules/play.hpp"
#include "tests/reference/positions.hpp"

namespace pointwright::reference {

Signature signature(std::uint64_t seed, int positions) {
  // Any odd number with its ones well spread serves; this is 2^64 over the golden ratio.
  constexpr std::uint64_t multiplier = 0x9E3779B97F4A7C15U;
  Signature total;
  Trials trials(seed);
  std::vector<LegalPlay> plays;
  for (int i = 0; i < positions; ++i) {
    const Trial trial = trials.next(Kind::game);
    legal_plays(trial.board, trial.side, trial.roll, plays);
    total.plays += static_cast<std::int64_t>(plays.size());
    for (const LegalPlay& play : plays) {
      total.folded = total.folded * multiplier + hash(play.after);
    }
  }
  return total;
}

}  // namespace pointwright::reference

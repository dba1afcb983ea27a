#include "judge/shipped.hpp"

#include "rules/fingerprint.hpp"

namespace pointwright::judge {

WeightsByPhase shipped_weights() {
  // The tests read all files; a damaged one cannot get this far.
  const auto weights = [](Phase phase) { return weights_from_bytes(shipped_net(phase)).value(); };
  return {weights(Phase::open), weights(Phase::blockade), weights(Phase::bear_in),
          weights(Phase::race)};
}

const Evaluator& shipped_evaluator() {
  static const Evaluator evaluator(shipped_weights());
  return evaluator;
}

std::uint64_t shipped_nets_hash() {
  static const std::uint64_t hash = [] {
    Fingerprint print;
    for (const Phase phase : all_phases) {
      for (const std::uint8_t byte : shipped_net(phase)) print.add_byte(byte);
    }
    return print.value();
  }();
  return hash;
}

}  // namespace pointwright::judge

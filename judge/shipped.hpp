#pragma once

#include <cstdint>
#include <span>

#include "judge/evaluator.hpp"

namespace pointwright::judge {

/// The bytes of PHASE.net in judge/nets/, made by the training in docs/training.md.
std::span<const std::uint8_t> shipped_net(Phase phase);
/// What they say.
WeightsByPhase shipped_weights();

/// The fingerprint of the bytes of all.
std::uint64_t shipped_nets_hash();

/// The evaluator with the shipped nets, made at first use.
const Evaluator& shipped_evaluator();

}  // namespace pointwright::judge
